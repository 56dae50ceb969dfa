#pragma once
/// The study file being read: where values are found, checked and echoed, and where everything wrong is collected.
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/base/document.hpp"
#include "engine/base/error.hpp"
#include "studies/ask/study.hpp"
#include "studies/read/keys.hpp"

namespace studies::read {

/// Gives the bytes of a file, or throws Refusal (files).
using FileSource = std::function<std::string(const std::string& path)>;

/// One table of the file with its dotted name ("choose.face[2]"); empty where the file has no such table.
struct View {
  const engine::Node* node = nullptr;
  std::string path;

  const engine::Node* find(const std::string& key) const { return node ? node->find(key) : nullptr; }
  bool has(const std::string& key) const { return find(key) != nullptr; }
  std::string under(const std::string& key) const { return path.empty() ? key : path + "." + key; }
  /// Where a key was typed; where its table begins when it was not.
  engine::Place place(const std::string& key) const;
};

class Page {
public:
  /// @param root  must outlive the page
  Page(std::string file, const engine::Node& root, Study& study, FileSource files);

  Study& study;
  View top() const { return {&root_, ""}; }
  /// A table below another; a value of another kind is refused and counts as none.
  View table(const View& in, const std::string& key);

  void refuse(engine::Place place, std::string problem, std::string reason, std::string fix);
  /// The same of a place in a file that the study names.
  void refuse_in(const std::string& file, engine::Place place, std::string problem, std::string reason,
                 std::string fix);
  void caution(Level level, std::string text, std::string why);
  const std::vector<engine::Problem>& problems() const { return problems_; }
  /// Refuses keys that are unknown or not built yet, through the whole file.
  void check_keys();
  /// True where a key of this table (of the top, where it is not there) was refused: what is missing there may be what
  /// was misspelled.
  bool spoiled(const View& view) const { return spoiled_.count(view.node ? view.node : &root_) > 0; }

  /// A number, quantity or whole number as its row of the key table says; none when not typed or refused.
  std::optional<double> number(const View& in, const std::string& key);
  /// The same with the default of the key table.
  double number_or_default(const View& in, const std::string& key);
  std::optional<std::string> text(const View& in, const std::string& key);
  /// One of these words; another is refused with the nearest.
  std::optional<std::string> word(const View& in, const std::string& key, const std::vector<std::string>& words);
  std::string word_or_default(const View& in, const std::string& key, const std::vector<std::string>& words);
  bool truth_or_false(const View& in, const std::string& key);

  /// A single value, echoed under `path`.
  /// @param dimension, bound  what is due
  std::optional<double> value(const engine::Node& node, const std::string& path, engine::Dimension dimension,
                              Bound bound);
  /// The quantity at a node, not echoed.
  std::optional<double> quantity(const engine::Node& node, const std::string& path, engine::Dimension dimension);
  /// Refuses a number outside its bound.
  bool keeps(double number, const engine::Node& node, const std::string& path, Bound bound);
  /// Refuses a word that is not among those known.
  bool known(const engine::Node& node, const std::string& path, const std::vector<std::string>& words);
  /// A node that is not of the kind due.
  void refuse_kind(const engine::Node& node, const std::string& path, const std::string& due);

  void echo(const std::string& path, const engine::Node& node, std::optional<double> si, engine::Dimension dimension);
  void echo_other(const std::string& path, std::string given, std::optional<double> si, engine::Dimension dimension,
                  std::string source);
  void echo_default(const std::string& path, std::optional<double> si);
  /// Writes into the study which units its author uses.
  void settle_units();

  /// A file that the study names, found from the study's folder.
  std::string path_of(const std::string& name) const;
  /// The text of such a file; it becomes part of the study's tables, once.
  /// @throws Refusal (files) when it cannot be read
  const std::string& file_text(const std::string& name);

private:
  struct UnitUsed {
    engine::Place place;
    engine::Dimension dimension;
    std::string unit;
  };
  void check_keys(const engine::Node& node, const std::string& path);

  std::string file_;
  const engine::Node& root_;
  std::vector<engine::Problem> problems_;
  std::set<const engine::Node*> spoiled_;
  std::vector<UnitUsed> units_;
  FileSource files_;
  std::map<std::string, std::string> texts_;  ///< of files named, by their paths
};

/// What was typed, on one line: "22 kN", "[1, 2]", "{ … }".
std::string as_typed(const engine::Node& node);
/// True where both are the same number but for rounding.
bool same(double a, double b);

}  // namespace studies::read
