#pragma once
/// A TOML 1.0 text as a tree that remembers where each thing was typed. The only room that sees the TOML library.
#include <string>
#include <utility>
#include <vector>

namespace engine {

struct Place {
  int line = 0;    ///< from 1; 0 when not typed
  int column = 0;  ///< from 1
};

/// A TOML key with the place where it was typed.
struct Key {
  std::string name;
  Place place;
};

/// One value of a document: text, number, truth value, list or table.
struct Node {
  enum class Kind { text, number, truth, list, table, other };

  // Spelled out, and defined where the pair of `entries` is complete: not every compiler waits that long by itself.
  Node();
  Node(const Node& other);
  Node(Node&& other) noexcept;
  Node& operator=(const Node& other);
  Node& operator=(Node&& other) noexcept;
  ~Node();

  Kind kind = Kind::table;
  Place place;
  std::string text;                           ///< of a text; of `other` (dates and times) its name in words
  double number = 0;                          ///< of a number
  bool whole = false;                         ///< of a number: typed as an integer
  bool truth = false;                         ///< of a truth value
  std::vector<Node> items;                    ///< of a list
  std::vector<std::pair<Key, Node>> entries;  ///< of a table, in the order typed

  /// The entry of a table with this key, or null.
  const Node* find(const std::string& key) const;
  /// What this is, in words a user knows: "a text", "a number", "true or false", "a list", "a table", "a date".
  std::string kind_in_words() const;
};

/// Reads a TOML text.
/// @param text  the whole file
/// @param file  its name for messages, as the user typed it
/// @throws Refusal (study): the syntax error with its place; an empty text; not-a-number and infinities
Node parse_document(const std::string& text, const std::string& file);

/// Reads a file and parses it.
/// @throws Refusal (files) when it cannot be read, Refusal (study) as parse_document
Node read_document(const std::string& path);

/// The bytes of a file.
/// @throws Refusal (files) when it cannot be read
std::string read_text(const std::string& path);

}  // namespace engine
