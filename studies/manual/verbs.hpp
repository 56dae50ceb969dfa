#pragma once
/// The verbs, each with all its rows.
#include "studies/manual/command.hpp"

namespace studies::manual {

Verb vet_verb();
Verb size_verb();
Verb rate_verb();
Verb reckon_verb();
Verb compare_verb();
Verb sheet_verb();
Verb blank_verb();

/// Options that several verbs share.
Option threads_option();
Option json_option(const std::string& object);
Option quiet_option(const std::string& help);

/// Exit codes that mean the same everywhere.
Exit usage_exit();
Exit files_exit();
Exit bug_exit();

}  // namespace studies::manual
