#include "engine/draw/curve.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <mutex>
#include <tuple>

#include "engine/draw/tail.hpp"

namespace engine {
namespace {

constexpr int most_bits = 6;               ///< of pieces in an octave
constexpr std::size_t most_pieces = 1024;  ///< in a cell
/// Values drawn at a time: with what they are drawn from and what is worked out on the way, they leave room for a table
/// in the fastest store.
constexpr std::size_t at_once = 256;
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

/// Values drawn by `draw(from, to, n)`; where it has none and says so, exact(from).
template <class Draw, class Exact>
void in_parts(const double* from, double* to, std::size_t n, Draw draw, Exact exact) {
  for (std::size_t done = 0; done < n; done += at_once) {
    const std::size_t end = std::min(done + at_once, n);
    if (draw(from + done, to + done, end - done) == 0) continue;
    for (std::size_t i = done; i < end; ++i)
      if (std::isnan(to[i])) to[i] = exact(from[i]);
  }
}

}  // namespace

QuantileTable::QuantileTable(const Marginal& marginal) : marginal_(marginal) { std::tie(low_, high_) = ends(marginal); }

void QuantileTable::add(const Quintic& piece) {
  coefficients_.insert(coefficients_.end(), piece.begin(), piece.end());
  coefficients_.resize(coefficients_.size() + stride - piece.size());
  ++pieces_;
}

void QuantileTable::add_none() { coefficients_.resize(coefficients_.size() + stride, nothing); }

ShareCurve::ShareCurve(const Marginal& marginal) : QuantileTable(marginal) {
  const Accuracy accuracy(marginal_);
  for (bits_ = 3; bits_ <= most_bits; ++bits_) {
    if (fill(accuracy)) return;
    coefficients_.clear();
    pieces_ = 0;
  }
}

bool ShareCurve::fill(const Accuracy& accuracy) {
  const double parts = std::ldexp(1, bits_);
  for (const bool upper : {false, true}) {
    // From the middle outwards: it is there that a distribution is hard, and the wrong number of pieces soon found out.
    std::vector<Quintic> found;
    for (int octave = -2; octave >= -54; --octave)
      for (double part = parts - 1; part >= 0; --part) {
        const double low = std::ldexp(1 + part / parts, octave), half = std::ldexp(0.5 / parts, octave);
        const auto exact = [&](double t) {
          const double share = low + half * (1 + t);
          return upper ? marginal_.quantile(1 - share, share) : marginal_.quantile(share, 1 - share);
        };
        const std::optional<Quintic> piece = fitted(exact, accuracy);
        if (!piece) return false;
        found.push_back(*piece);
      }
    for (auto piece = found.rbegin(); piece != found.rend(); ++piece) add(*piece);
    add_none();
  }
  return true;
}

void ShareCurve::operator()(const double* u, double* x, std::size_t n) const {
  in_parts(
      u, x, n, [&](auto from, auto to, auto m) { return block_math().share_curve(from, to, rows(), bits_, m); },
      [&](double one) { return marginal_.quantile(one); });
}

NormalCurve::NormalCurve(const Marginal& marginal) : QuantileTable(marginal) {
  const Accuracy accuracy(marginal_);
  add_none();
  // A cell without pieces at either end takes all that lies farther out.
  for (int cell = -1; cell <= NormalCells::count; ++cell) {
    first_.push_back(0), count_.push_back(1);
    if (cell >= 0 && cell < NormalCells::count) add_cell(cell * NormalCells::width - NormalCells::reach, accuracy);
  }
}

void NormalCurve::add_cell(double from, const Accuracy& accuracy) {
  for (std::size_t pieces = 1; pieces <= most_pieces; pieces *= 2) {
    const double half = NormalCells::width / static_cast<double>(pieces) / 2;
    std::vector<Quintic> found;
    for (std::size_t i = 0; i < pieces; ++i) {
      const double middle = from + half * static_cast<double>(2 * i + 1);
      const auto piece = fitted([&](double t) { return tail_value(marginal_, middle + half * t); }, accuracy);
      if (!piece) break;
      found.push_back(*piece);
    }
    if (found.size() < pieces) continue;
    first_.back() = size();
    count_.back() = static_cast<double>(pieces);
    for (const Quintic& piece : found) add(piece);
    return;
  }
}

void NormalCurve::operator()(const double* z, double* x, std::size_t n) const {
  const NormalCells cells{count_.data(), first_.data()};
  in_parts(
      z, x, n, [&](auto from, auto to, auto m) { return block_math().normal_curve(from, to, rows(), cells, m); },
      [&](double one) { return tail_value(marginal_, one); });
}

template <class AnyCurve>
std::shared_ptr<const AnyCurve> curve_of(const Marginal& m) {
  using Key = std::tuple<Shape, double, double, double, double, double, double>;
  static std::mutex mutex;
  static std::map<Key, std::weak_ptr<const AnyCurve>> in_use;
  const std::scoped_lock lock(mutex);
  std::erase_if(in_use, [](const auto& entry) { return entry.second.expired(); });
  std::weak_ptr<const AnyCurve>& known = in_use[{m.shape, m.a, m.b, m.c, m.d, m.window.least, m.window.most}];
  std::shared_ptr<const AnyCurve> curve = known.lock();
  if (!curve) known = curve = std::make_shared<const AnyCurve>(m);
  return curve;
}

template std::shared_ptr<const ShareCurve> curve_of(const Marginal&);
template std::shared_ptr<const NormalCurve> curve_of(const Marginal&);

}  // namespace engine
