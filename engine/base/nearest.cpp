#include "engine/base/nearest.hpp"

#include <algorithm>
#include <cstddef>

namespace engine {
namespace {

constexpr std::size_t longest_word = 64;

std::string lower(std::string word) {
  for (char& letter : word)
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  return word;
}

/// Edit distance in which a swap of two neighbours counts once (optimal string alignment).
std::size_t slips(const std::string& a, const std::string& b) {
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0u : 1u)});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

std::size_t allowed(std::size_t letters) { return letters <= 3 ? 1 : letters <= 7 ? 2 : 3; }

std::string only_one_beginning_with(const std::string& start, const std::vector<std::string>& words) {
  std::string found;
  for (const std::string& word : words) {
    if (lower(word).rfind(start, 0) != 0) continue;
    if (!found.empty()) return "";
    found = word;
  }
  return found;
}

}  // namespace

std::string nearest(const std::string& word, const std::vector<std::string>& words) {
  if (word.empty() || word.size() > longest_word) return "";
  const std::string typed = lower(word);
  std::string best;
  std::size_t fewest = allowed(typed.size()) + 1;
  for (const std::string& candidate : words) {
    if (candidate.size() > longest_word) continue;
    const std::size_t count = slips(typed, lower(candidate));
    if (count >= fewest || (count > 0 && count >= std::min(typed.size(), candidate.size()))) continue;
    fewest = count;
    best = candidate;
  }
  if (best.empty() && typed.size() >= 3) best = only_one_beginning_with(typed, words);
  return best;
}

}  // namespace engine
