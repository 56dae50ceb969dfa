#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "models/thread/designation.hpp"
#include "models/thread/trade_name.hpp"

namespace models {
namespace {

constexpr double inch = 0.0254;

double in_millimetres(double length) { return std::round(length * 1e7) / 1e4; }

/// "40x7", "40x14 P7": the pitch is rounded first, so that the lead stays a whole multiple of it.
std::string metric_text(double diameter, double pitch, int starts) {
  const double shown = in_millimetres(pitch);
  return decimals(in_millimetres(diameter)) + "x" + decimals(shown * starts) +
         (starts > 1 ? " P" + decimals(shown) : "");
}

/// Inches as a whole number and a fraction in lowest terms: "1-1/2".
std::string inch_text(double length) {
  const int sixteenths = static_cast<int>(std::lround(length / inch * 16));
  const int whole = sixteenths / 16, part = sixteenths % 16, common = std::gcd(part, 16);
  if (part == 0) return fmt::format("{}", whole);
  return (whole > 0 ? fmt::format("{}-", whole) : "") + fmt::format("{}/{}", part / common, 16 / common);
}

std::string inch_name(Form form, const Size& size) {
  if (form == Form::acme) return "Acme";
  if (form == Form::stub_acme) return "Stub Acme";
  const Size* coarse = coarse_size(form, size.diameter);
  return coarse && coarse->pitch == size.pitch ? "UNC" : "UNF";
}

}  // namespace

std::string decimals(double value) {
  std::string text = fmt::format("{:.4f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string trade_name(Form form, const Size& size, int starts) {
  if (form == Form::trapezoidal) return "Tr " + metric_text(size.diameter, size.pitch, starts);
  if (form == Form::iso_metric) return "M" + metric_text(size.diameter, size.pitch, starts);
  return inch_text(size.diameter) + "-" + decimals(inch / size.pitch) + " " + inch_name(form, size) +
         (starts > 1 ? fmt::format(", {} starts", starts) : "");
}

std::string designation(const Thread& thread) {
  if (const Size* size = size_on_series(thread.form, thread.diameter, thread.pitch))
    return trade_name(thread.form, *size, thread.starts);
  return name(thread.form) + " " + metric_text(thread.diameter, thread.pitch, thread.starts);
}

}  // namespace models
