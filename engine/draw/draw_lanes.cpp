/// Compiled once per instruction set: see engine/lanes/each.hpp for the rules.
#include "engine/draw/block_math.hpp"
#include "engine/draw/counter.hpp"
#include "engine/lanes/each.hpp"
#include "engine/lanes/point_math.hpp"

namespace engine::SCREWTINY_SET {
namespace {

constexpr std::size_t most_at_once = 1024, most_in_table = 256;

/// Values outside the centre, in order of their places.
struct Tails {
  double u[most_at_once], z[most_at_once];
  std::uint32_t place[most_at_once];
  std::size_t count = 0;
};

void find_tails(const double* u, std::size_t n, Tails& tails) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < n; ++i) {
    tails.place[count] = static_cast<std::uint32_t>(i);
    count += !normal_is_central(u[i]);
  }
  for (std::size_t j = 0; j < count; ++j) tails.u[j] = u[tails.place[j]];
  tails.count = count;
}

void fill_tails(Tails& tails) {
  std::uint64_t far = 0;
  SCREWTINY_EACH
  for (std::size_t j = 0; j < tails.count; ++j) {
    const double r = normal_radius(tails.u[j]), z = normal_tail(r);
    far += r <= 5 ? 0u : 1u;
    tails.z[j] = tails.u[j] < 0.5 ? -z : z;
  }
  for (std::size_t j = 0; far > 0 && j < tails.count; ++j)
    if (!(normal_radius(tails.u[j]) <= 5)) tails.z[j] = normal_quantile_at(tails.u[j]);
}

/// The centre's formula for all, which is wasted on the tails; these together; back into their places.
void normal_quantile_part(double* v, std::size_t n) {
  Tails tails;
  find_tails(v, n, tails);
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) v[i] = normal_centre(v[i] - 0.5);
  fill_tails(tails);
  for (std::size_t j = 0; j < tails.count; ++j) v[tails.place[j]] = tails.z[j];
}

void normal_quantile(double* v, std::size_t n) {
  for (std::size_t i = 0; i < n; i += most_at_once)
    normal_quantile_part(v + i, n - i < most_at_once ? n - i : most_at_once);
}

void exp_loop(double* x, std::size_t n) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) x[i] = exponential(x[i]);
}

void log_loop(double* x, std::size_t n) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    const double l = logarithm(x[i]);
    x[i] = x[i] > 0 ? (x[i] < __builtin_inf() ? l : x[i]) : x[i] == 0 ? -__builtin_inf() : __builtin_nan("");
  }
}

void line(double* x, double a, double b, std::size_t n) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) x[i] = a + b * x[i];
}

void uniform(double* x, double low, double high, std::size_t n) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) x[i] = uniform_at(x[i], 1 - x[i], low, high);
}

void triangular(double* x, double low, double mode, double high, std::size_t n) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) x[i] = triangular_at(x[i], 1 - x[i], low, mode, high);
}

void add(double* sum, const double* x, double weight, std::size_t n) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) sum[i] += weight * x[i];
}

void multiply(double* product, const double* x, std::size_t n) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) product[i] *= x[i];
}

std::uint64_t raise(double* x, double floor, std::size_t n) {
  std::uint64_t raised = 0;
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    raised += x[i] < floor ? 1u : 0u;
    x[i] = x[i] < floor ? floor : x[i];
  }
  return raised;
}

void uniforms(std::uint64_t first, std::uint64_t pair, std::uint64_t key, std::uint64_t stream, double* one,
              double* other, std::size_t n) {
  double unused[most_at_once];
  for (std::size_t from = 0; from < n; from += most_at_once) {
    const std::size_t size = n - from < most_at_once ? n - from : most_at_once;
    double *a = one + from, *b = other ? other + from : unused;
    SCREWTINY_EACH
    for (std::size_t i = 0; i < size; ++i) {
      std::uint64_t word = first + from + i, next = pair;
      threefry_in_place(word, next, key, stream);
      a[i] = unit(word);
      b[i] = unit(next);
    }
  }
}

/// Where values of a table are to be found: loops that look something up stand alone, so that the others vectorise.
struct Places {
  double within[most_in_table];  ///< the piece, from −1 to 1
  std::int64_t piece[most_in_table];
};

std::uint64_t evaluate(const CurveRows& rows, const Places& places, double* x, std::size_t n) {
  const double* coefficients = rows.coefficients;
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    const double* c = coefficients + places.piece[i] * CurveRows::stride;
    const double t = places.within[i], t2 = t * t;
    x[i] = (c[0] + c[1] * t) + t2 * ((c[2] + c[3] * t) + t2 * (c[4] + c[5] * t));
  }
  const double low = rows.low, high = rows.high;
  std::uint64_t missing = 0;
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    const double value = x[i], raised = value < low ? low : value;
    x[i] = raised > high ? high : raised;
    missing += value != value ? 1u : 0u;
  }
  return missing;
}

/// The octave of a share is its exponent, the piece the first bits of its fraction, and the place within the others.
std::uint64_t share_curve(const double* u, double* x, const CurveRows& rows, int bits, std::size_t n) {
  Places places;
  constexpr std::uint64_t fraction = 0x000fffffffffffff, one = 0x3ff0000000000000;
  // From 2⁻⁵⁴ to 1/2; that and all else, be it a number or not, has the last piece, which is none.
  const std::uint64_t least = ((one >> 52) - 54) << bits, none = std::uint64_t{53} << bits;
  const int shift = 52 - bits;
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    const double below = u[i], above = 1 - below;
    const std::uint64_t tail = to_bits(below < above ? below : above);
    std::uint64_t piece = (tail >> shift) - least;
    piece = piece < none ? piece : none;
    places.piece[i] = static_cast<std::int64_t>(below < above ? piece : piece + none + 1);
    places.within[i] = 2 * from_bits(((tail << bits) & fraction) | one) - 3;
  }
  return evaluate(rows, places, x, n);
}

std::uint64_t normal_curve(const double* z, double* x, const CurveRows& rows, const NormalCells& cells, std::size_t n) {
  Places places;
  double pieces[most_in_table];
  std::int32_t cell[most_in_table];
  constexpr double last = NormalCells::count + 1;
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    double at = (z[i] + NormalCells::reach) * (1 / NormalCells::width) + 1;
    at = at > 0 ? at : 0.0;
    at = at < last ? at : last;
    cell[i] = static_cast<std::int32_t>(at);
    places.within[i] = at - cell[i];
  }
  const double* pieces_of = cells.pieces;
  const std::int32_t* first_of = cells.first;
  for (std::size_t i = 0; i < n; ++i) pieces[i] = pieces_of[cell[i]], places.piece[i] = first_of[cell[i]];
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    const double within = places.within[i] * pieces[i];
    const auto piece = static_cast<std::int32_t>(within);
    places.piece[i] += piece;
    places.within[i] = 2 * (within - piece) - 1;
  }
  return evaluate(rows, places, x, n);
}

void net(std::uint64_t start, const std::uint64_t* directions, double* u, std::size_t n) {
  std::uint64_t words[most_at_once];
  words[0] = start;
  for (std::size_t half = 1; half < n; half *= 2, ++directions) {
    const std::uint64_t direction = *directions;
    SCREWTINY_EACH
    for (std::size_t i = 0; i < half; ++i) words[half + i] = words[i] ^ direction;
  }
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) u[i] = unit(words[i]);
}

}  // namespace

extern const BlockMath draw_loops;
const BlockMath draw_loops = {normal_quantile, exp_loop, log_loop, line,        uniform,      triangular, add,
                              multiply,        raise,    uniforms, share_curve, normal_curve, net};

}  // namespace engine::SCREWTINY_SET
