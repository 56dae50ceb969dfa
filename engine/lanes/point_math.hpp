#pragma once
/// exp, log and quantiles of one number in plain arithmetic, without the C library: a loop over them vectorises, and
/// every compiler, level and instruction set gives the same bits. Block functions and scalar ones both come from here.
#include <cmath>
#include <cstdint>

namespace engine {

/// Coefficients from the highest power down.
[[gnu::always_inline]] inline double horner(double, double sum) { return sum; }
template <class... More>
[[gnu::always_inline]] inline double horner(double x, double sum, double next, More... more) {
  return horner(x, sum * x + next, more...);
}

[[gnu::always_inline]] inline double from_bits(std::uint64_t bits) { return __builtin_bit_cast(double, bits); }
[[gnu::always_inline]] inline std::uint64_t to_bits(double x) { return __builtin_bit_cast(std::uint64_t, x); }

/// ln 2 in two parts, the first with 20 zero bits at its end.
inline constexpr double ln2_high = 0x1.62e42feep-1, ln2_low = 0x1.a39ef35793c76p-33;

/// eˣ: x = k ln 2 + r, |r| ≤ ln 2/2, Taylor's series to r¹³ (remainder below 5e-18), times 2ᵏ in two halves so that it
/// ends softly: +infinity above, subnormal and 0 below.
/// @return  within 1 unit in the last place (2 where subnormal)
[[gnu::always_inline]] inline double exponential(double x) {
  constexpr double whole = 0x1.8p52;  // added and taken away again: rounds to a whole number
  double c = x > 710 ? 710.0 : x;
  c = c < -746 ? -746.0 : c;
  const double k = (c * 0x1.71547652b82fep+0 + whole) - whole;
  const double r = (c - k * ln2_high) - k * ln2_low;
  const double series = horner(r, 1.0 / 6227020800, 1.0 / 479001600, 1.0 / 39916800, 1.0 / 3628800, 1.0 / 362880,
                               1.0 / 40320, 1.0 / 5040, 1.0 / 720, 1.0 / 120, 1.0 / 24, 1.0 / 6, 0.5);
  const double half = k * 0.5 + whole, rest = (k - (half - whole)) + whole;
  const double one = from_bits((to_bits(half) << 52) + (std::uint64_t{1023} << 52)),
               other = from_bits((to_bits(rest) << 52) + (std::uint64_t{1023} << 52));
  return (1 + (r + r * r * series)) * one * other;
}

/// ln x of a positive finite x: x = 2ᵏ(1 + f), √½ ≤ 1 + f < √2, s = f/(2 + f), a polynomial in s².
/// @return  within 1 unit in the last place; anything for other x
/// @source  the method and the coefficients of e_log.c, Sun Microsystems' fdlibm 5.3 (freely distributable)
[[gnu::always_inline]] inline double logarithm(double x) {
  const bool tiny = x < 0x1p-1022;
  const double scaled = tiny ? x * 0x1p54 : x;
  constexpr std::uint64_t least = 0x3fe6a09e00000000;  // √½, from below
  const std::uint64_t bits = to_bits(scaled) + (0x3ff0000000000000 - least);
  const double exponent = from_bits((bits >> 52) | 0x4330000000000000) - (0x1p52 + 1023);
  const double k = tiny ? exponent - 54 : exponent;
  const double f = from_bits((bits & 0x000fffffffffffff) + least) - 1;
  const double s = f / (2 + f), z = s * s, square = 0.5 * f * f;
  const double series = z * horner(z, 1.479819860511658591e-01, 1.531383769920937332e-01, 1.818357216161805012e-01,
                                   2.222219843214978396e-01, 2.857142874366239149e-01, 3.999999999940941908e-01,
                                   6.666666666666735130e-01);
  return k * ln2_high - ((square - (s * (square + series) + k * ln2_low)) - f);
}

/// Inverse of the standard normal distribution in three regions of u, |u − 1/2| ≤ 0.425 being the first.
/// @source Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988)
[[gnu::always_inline]] inline double normal_centre(double q) {
  const double r = 0.180625 - q * q;
  return q *
         horner(r, 2509.0809287301226727, 33430.575583588128105, 67265.770927008700853, 45921.953931549871457,
                13731.693765509461125, 1971.5909503065514427, 133.14166789178437745, 3.387132872796366608) /
         horner(r, 5226.495278852545925, 28729.085735721942674, 39307.89580009271061, 21213.794301586595867,
                5394.1960214247511077, 687.1870074920579083, 42.313330701600911252, 1.0);
}
/// The second region, r = √(−ln min(u, 1 − u)) ≤ 5: the magnitude.
[[gnu::always_inline]] inline double normal_tail(double r) {
  return horner(r - 1.6, 7.7454501427834140764e-4, 0.0227238449892691845833, 0.24178072517745061177,
                1.27045825245236838258, 3.64784832476320460504, 5.7694972214606914055, 4.6303378461565452959,
                1.42343711074968357734) /
         horner(r - 1.6, 1.05075007164441684324e-9, 5.475938084995344946e-4, 0.0151986665636164571966,
                0.14810397642748007459, 0.68976733498510000455, 1.6763848301838038494, 2.05319162663775882187, 1.0);
}
/// The third region, r > 5: the magnitude.
[[gnu::always_inline]] inline double normal_far_tail(double r) {
  return horner(r - 5, 2.01033439929228813265e-7, 2.71155556874348757815e-5, 0.0012426609473880784386,
                0.026532189526576123093, 0.29656057182850489123, 1.7848265399172913358, 5.4637849111641143699,
                6.6579046435011037772) /
         horner(r - 5, 2.04426310338993978564e-15, 1.4215117583164458887e-7, 1.8463183175100546818e-5,
                7.868691311456132591e-4, 0.0148753612908506148525, 0.13692988092273580531, 0.59983220655588793769, 1.0);
}
[[gnu::always_inline]] inline bool normal_is_central(double u) { return __builtin_fabs(u - 0.5) <= 0.425; }
[[gnu::always_inline]] inline double normal_radius(double u) { return __builtin_sqrt(-logarithm(u < 0.5 ? u : 1 - u)); }

/// All of them; −infinity at 0 and below, +infinity at 1 and above.
[[gnu::always_inline]] inline double normal_quantile_at(double u) {
  if (!(u > 0)) return -__builtin_inf();
  if (!(u < 1)) return __builtin_inf();
  if (normal_is_central(u)) return normal_centre(u - 0.5);
  const double r = normal_radius(u), z = r <= 5 ? normal_tail(r) : normal_far_tail(r);
  return u < 0.5 ? -z : z;
}

/// Quantiles of a uniform and of a triangular distribution, from the share below and what is left of it to 1.
[[gnu::always_inline]] inline double uniform_at(double below, double above, double low, double high) {
  const double width = high - low, from_low = low + width * below, from_high = high - width * above;
  return below < above ? from_low : from_high;
}
[[gnu::always_inline]] inline double triangular_at(double below, double above, double low, double mode, double high) {
  const double width = high - low, left = (mode - low) / width;
  const double under = below * width * (mode - low), over = above * width * (high - mode);
  const double reach = __builtin_sqrt(below < left ? under : over);
  return below < left ? low + reach : high - reach;
}

}  // namespace engine
