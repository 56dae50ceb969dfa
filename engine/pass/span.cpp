#include "engine/pass/span.hpp"

#include <algorithm>
#include <limits>
#include <set>

namespace engine {
namespace {

/// The least key whose value lies in a bin or a later one; one past that of infinity where none does.
std::uint64_t least_key(const Histogram& h, std::size_t bin) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  std::uint64_t low = order_key(-inf), high = order_key(inf) + 1;
  while (low < high) {
    const std::uint64_t middle = low + (high - low) / 2;
    if (h.bin(of_key(middle)) >= bin)
      high = middle;
    else
      low = middle + 1;
  }
  return low;
}

bool earlier(const Span& a, const Span& b) { return a.output != b.output ? a.output < b.output : a.low < b.low; }

/// The parts of one span that hold ranks sought.
void add_parts(const Span& span, const std::uint64_t* counts, const std::vector<Sought>& sought,
               std::vector<Span>& found) {
  std::uint64_t before = span.before;
  for (std::size_t part = 0; part < Span::parts; before += counts[part++]) {
    if (counts[part] == 0) continue;
    const Span cut = span.cut(part, before, counts[part]);
    if (std::any_of(sought.begin(), sought.end(), [&](const Sought& s) { return cut.holds(s); })) found.push_back(cut);
  }
}

}  // namespace

Spans::Spans(const Counts& counts, const std::vector<Sought>& sought) : counts_(counts) {
  std::set<std::pair<std::size_t, std::size_t>> bins;
  for (const Sought& s : sought) bins.emplace(s.output, counts.all[s.output].find(s.rank).bin);
  std::vector<Span> spans;
  open_.assign(counts.all.size(), std::vector<unsigned char>(Histogram::bins + 3));
  for (const auto& [output, bin] : bins) {
    const Histogram& h = counts.all[output];
    std::uint64_t before = 0;
    for (std::size_t b = 0; b < bin; ++b) before += h.count(b);
    spans.push_back({output, least_key(h, bin), least_key(h, bin + 1) - 1, before, h.count(bin)});
    open_[output][bin] = 1;
  }
  take(std::move(spans));
}

void Spans::take(std::vector<Span> spans) {
  std::sort(spans.begin(), spans.end(), earlier);
  all_ = std::move(spans);
  first_.assign(1, 0);
  for (std::size_t i = 0, output = 0; output < counts_.all.size(); ++output) {
    while (i < all_.size() && all_[i].output == output) ++i;
    first_.push_back(i);
  }
}

std::size_t Spans::find(std::size_t output, double value) const {
  if (!open_[output][counts_.all[output].bin(value)]) return nowhere;
  const std::uint64_t key = order_key(value);
  const auto begin = all_.begin() + static_cast<std::ptrdiff_t>(first_[output]);
  const auto end = all_.begin() + static_cast<std::ptrdiff_t>(first_[output + 1]);
  const auto past = std::upper_bound(begin, end, key, [](std::uint64_t k, const Span& s) { return k < s.low; });
  if (past == begin || (past - 1)->high < key) return nowhere;
  return static_cast<std::size_t>(past - 1 - all_.begin());
}

const Span& Spans::holding(const Sought& sought) const {
  auto span = all_.begin() + static_cast<std::ptrdiff_t>(first_[sought.output]);
  while (!span->holds(sought)) ++span;
  return *span;
}

std::uint64_t Spans::values() const {
  std::uint64_t sum = 0;
  for (const Span& span : all_) sum += span.single() ? 0 : span.count;
  return sum;
}

std::vector<std::size_t> Spans::fat(std::uint64_t budget) const {
  std::vector<std::size_t> cut;
  if (values() <= budget) return cut;
  const std::uint64_t fair = budget / all_.size();
  for (std::size_t i = 0; i < all_.size(); ++i)
    if (!all_[i].single() && all_[i].count > fair) cut.push_back(i);
  return cut;
}

void Spans::refine(const std::vector<std::size_t>& cut, const std::vector<std::uint64_t>& counts,
                   const std::vector<Sought>& sought) {
  std::vector<Span> spans;
  auto next = cut.begin();
  for (std::size_t i = 0; i < all_.size(); ++i) {
    if (next == cut.end() || *next != i) {
      spans.push_back(all_[i]);
      continue;
    }
    std::vector<Sought> inside;
    std::copy_if(sought.begin(), sought.end(), std::back_inserter(inside),
                 [&](const Sought& s) { return all_[i].holds(s); });
    add_parts(all_[i], counts.data() + static_cast<std::size_t>(next - cut.begin()) * Span::parts, inside, spans);
    ++next;
  }
  take(std::move(spans));
}

}  // namespace engine
