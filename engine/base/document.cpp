#include "engine/base/document.hpp"

// The library is compiled in here, not linked: its assertions, which a mistyped key can reach, are off this way.
#undef TOML_HEADER_ONLY
#undef TOML_SHARED_LIB
#define TOML_HEADER_ONLY 1
#define TOML_ASSERT(expression) static_cast<void>(0)
#include <toml++/toml.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "engine/base/error.hpp"
#include "engine/base/toml_advice.hpp"
#include "engine/base/toml_check.hpp"

namespace engine {
namespace {

constexpr int deepest = 64;

Place place_of(const toml::source_region& source) {
  return {static_cast<int>(source.begin.line), static_cast<int>(source.begin.column)};
}

bool before(Place a, Place b) { return a.line != b.line ? a.line < b.line : a.column < b.column; }

/// Turns the library's tree into ours and gathers every value that cannot be used.
class Reader {
public:
  explicit Reader(const std::string& file) : file_(file) {}

  Node read(const toml::node& from, int depth = 0) {
    Node node;
    node.place = place_of(from.source());
    if (depth > deepest) {
      refuse(node.place, "Values are nested more than " + std::to_string(deepest) + " deep", "nest less");
      return node;
    }
    if (const toml::table* table = from.as_table()) read_table(*table, node, depth);
    if (const toml::array* list = from.as_array()) {
      node.kind = Node::Kind::list;
      for (const toml::node& item : *list) node.items.push_back(read(item, depth + 1));
    }
    read_value(from, node);
    return node;
  }

  const std::vector<Problem>& problems() const { return problems_; }

private:
  void refuse(Place place, const std::string& problem, const std::string& fix) {
    problems_.push_back({file_, place.line, place.column, problem, "", fix});
  }

  void read_table(const toml::table& table, Node& node, int depth) {
    node.kind = Node::Kind::table;
    for (const auto& [key, value] : table)
      node.entries.push_back({{std::string(key.str()), place_of(key.source())}, read(value, depth + 1)});
    std::stable_sort(node.entries.begin(), node.entries.end(),
                     [](const auto& a, const auto& b) { return before(a.first.place, b.first.place); });
  }

  void read_value(const toml::node& from, Node& node) {
    if (const auto* text = from.as_string()) {
      node.kind = Node::Kind::text;
      node.text = text->get();
    } else if (const auto* integer = from.as_integer()) {
      read_integer(integer->get(), node);
    } else if (const auto* real = from.as_floating_point()) {
      node.kind = Node::Kind::number;
      node.number = real->get();
      if (std::isnan(node.number)) refuse(node.place, "Not-a-number (nan) is no value here", "write a number");
      if (std::isinf(node.number)) refuse(node.place, "An infinity (inf) is no value here", "write a number");
    } else if (const auto* truth = from.as_boolean()) {
      node.kind = Node::Kind::truth;
      node.truth = truth->get();
    } else if (from.is_date() || from.is_time() || from.is_date_time()) {
      node.kind = Node::Kind::other;
      node.text = from.is_date() ? "a date" : from.is_time() ? "a time" : "a date and time";
    }
  }

  void read_integer(std::int64_t integer, Node& node) {
    node.kind = Node::Kind::number;
    node.whole = true;
    node.number = static_cast<double>(integer);
    constexpr std::int64_t largest_exact = std::int64_t{1} << 53;
    if (integer > largest_exact || integer < -largest_exact)
      refuse(node.place, "The whole number " + std::to_string(integer) + " is too long to be kept to its last figure",
             "use at most 15 figures");
  }

  std::string file_;
  std::vector<Problem> problems_;
};

int lines_in(const std::string& text) {
  const auto ends = std::count(text.begin(), text.end(), '\n');
  return static_cast<int>(ends) + (text.empty() || text.back() == '\n' ? 0 : 1);
}

[[noreturn]] void refuse_syntax(const toml::parse_error& error, const CheckedText& checked, const std::string& file) {
  const Place place = place_of(error.source());
  const auto stray = std::find_if(checked.strays.begin(), checked.strays.end(), [&](Place at) {
    return at.line == place.line && std::abs(at.column - place.column) <= 1;
  });
  if (stray != checked.strays.end())
    throw Refusal(ExitCode::study, {file, stray->line, stray->column, "A character here is not allowed outside quotes",
                                    "Only plain letters are, not accents, curly quotes or special blanks",
                                    "put the text or the key in straight quotes"});
  const int line = std::clamp(place.line, 1, std::max(1, lines_in(checked.text)));
  const std::string message(error.description());
  throw Refusal(ExitCode::study, {file, line, line == place.line ? place.column : 0, toml_problem(message), "",
                                  toml_advice(line_of(checked.text, line), message)});
}

std::string why(int error) { return error == 0 ? "" : std::strerror(error); }

}  // namespace

Node::Node() = default;
Node::Node(const Node& other) = default;
Node::Node(Node&& other) noexcept = default;
Node& Node::operator=(const Node& other) = default;
Node& Node::operator=(Node&& other) noexcept = default;
Node::~Node() = default;

const Node* Node::find(const std::string& key) const {
  for (const auto& [name, node] : entries)
    if (name.name == key) return &node;
  return nullptr;
}

std::string Node::kind_in_words() const {
  switch (kind) {
    case Kind::text:
      return "a text";
    case Kind::number:
      return "a number";
    case Kind::truth:
      return "true or false";
    case Kind::list:
      return "a list";
    case Kind::table:
      return "a table";
    case Kind::other:
      return text;
  }
  return text;
}

Node parse_document(const std::string& text, const std::string& file) {
  const CheckedText checked = check_toml(text, file);
  try {
    const toml::table table = toml::parse(std::string_view(checked.text), std::string_view(file));
    if (table.empty())
      throw Refusal(ExitCode::study, {file, 0, 0, "The file holds only comments", "", "write a study into it"});
    Reader reader(file);
    Node root = reader.read(table);
    if (!reader.problems().empty()) throw Refusal(ExitCode::study, reader.problems());
    return root;
  } catch (const toml::parse_error& error) {
    refuse_syntax(error, checked, file);
  }
}

Node read_document(const std::string& path) { return parse_document(read_text(path), path); }

std::string read_text(const std::string& path) {
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored))
    throw Refusal(ExitCode::files, {path, 0, 0, "This is a folder, not a file", "", "name a file in it"});
  errno = 0;
  std::ifstream stream(path, std::ios::binary);
  if (!stream)
    throw Refusal(ExitCode::files,
                  {path, 0, 0, "The file cannot be opened", why(errno), "check the name and the rights"});
  std::ostringstream bytes;
  if (stream.peek() != std::ifstream::traits_type::eof()) bytes << stream.rdbuf();
  if (stream.bad() || !bytes)
    throw Refusal(ExitCode::files,
                  {path, 0, 0, "The file cannot be read", why(errno), "check the disk and the rights"});
  return bytes.str();
}

}  // namespace engine
