#include "studies/manual/files.hpp"

#include <algorithm>

#include "models/tables/table.hpp"
#include "studies/manual/completion.hpp"
#include "studies/manual/page.hpp"
#include "studies/run/data.hpp"

namespace studies::manual {
namespace {

/// Every material once, in the order of the tables.
std::vector<std::string> materials() {
  std::vector<std::string> names;
  for (const models::Material& it : models::read_tables(data_folder("tables"), {}).materials)
    if (std::find(names.begin(), names.end(), it.name) == names.end()) names.push_back(it.name);
  return names;
}

}  // namespace

std::map<std::string, std::string> manual_files(const std::string& date) {
  const Edition edition{version(), date};
  const Program& all = program();
  const std::vector<std::string> known = materials();
  std::map<std::string, std::string> files = {
      {"man/man1/screwtiny.1", page(all, edition)},
      {"bash-completion/completions/screwtiny", bash_completion(all, known)},
      {"zsh/site-functions/_screwtiny", zsh_completion(all, known)},
      {"fish/vendor_completions.d/screwtiny.fish", fish_completion(all, known)},
  };
  for (const Verb& verb : all.verbs) files["man/man1/screwtiny-" + verb.name + ".1"] = page(all, verb, edition);
  return files;
}

}  // namespace studies::manual
