#include "models/thread/series.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace models {
namespace {

/// A diameter and the pitches it is made with [mm].
struct Metric {
  double diameter;
  std::vector<double> pitches;
};

/// A diameter in sixteenths of an inch and the threads to the inch.
struct Inch {
  int sixteenths;
  double threads;
};

/// ISO 2904 (from memory as a list; the rows that published tables repeat agree). 115 mm: from memory.
const std::vector<Metric>& trapezoidal_list() {
  static const std::vector<Metric> list{
      {8, {1.5}},         {9, {1.5, 2}},      {10, {1.5, 2}},     {11, {2, 3}},       {12, {2, 3}},
      {14, {2, 3}},       {16, {2, 4}},       {18, {2, 4}},       {20, {2, 4}},       {22, {3, 5, 8}},
      {24, {3, 5, 8}},    {26, {3, 5, 8}},    {28, {3, 5, 8}},    {30, {3, 6, 10}},   {32, {3, 6, 10}},
      {34, {3, 6, 10}},   {36, {3, 6, 10}},   {38, {3, 7, 10}},   {40, {3, 7, 10}},   {42, {3, 7, 10}},
      {44, {3, 7, 12}},   {46, {3, 8, 12}},   {48, {3, 8, 12}},   {50, {3, 8, 12}},   {52, {3, 8, 12}},
      {55, {3, 9, 14}},   {60, {3, 9, 14}},   {65, {4, 10, 16}},  {70, {4, 10, 16}},  {75, {4, 10, 16}},
      {80, {4, 10, 16}},  {85, {4, 12, 18}},  {90, {4, 12, 18}},  {95, {4, 12, 18}},  {100, {4, 12, 20}},
      {105, {4, 12, 20}}, {110, {4, 12, 20}}, {115, {6, 14, 22}}, {120, {6, 14, 22}},
  };
  return list;
}

/// ASME B1.5 general purpose; stub Acme (ASME B1.8) uses the same. 1/4 to 1-1/8 seen, the rest from memory.
const std::vector<Inch>& acme_list() {
  static const std::vector<Inch> list{
      {4, 16}, {5, 14}, {6, 12}, {7, 12}, {8, 10}, {10, 8}, {12, 6}, {14, 6}, {16, 5}, {18, 5}, {20, 5}, {22, 4},
      {24, 4}, {28, 4}, {32, 4}, {36, 3}, {40, 3}, {44, 3}, {48, 2}, {56, 2}, {64, 2}, {72, 2}, {80, 2},
  };
  return list;
}

/// ISO 261, coarse, M3 to M68 (M8 to M48 by first choice seen, the rest from memory).
const std::vector<Metric>& coarse_list() {
  static const std::vector<Metric> list{
      {3, {0.5}},  {3.5, {0.6}}, {4, {0.7}},  {4.5, {0.75}}, {5, {0.8}},  {6, {1}},  {7, {1}},    {8, {1.25}},
      {9, {1.25}}, {10, {1.5}},  {11, {1.5}}, {12, {1.75}},  {14, {2}},   {16, {2}}, {18, {2.5}}, {20, {2.5}},
      {22, {2.5}}, {24, {3}},    {27, {3}},   {30, {3.5}},   {33, {3.5}}, {36, {4}}, {39, {4}},   {42, {4.5}},
      {45, {4.5}}, {48, {5}},    {52, {5}},   {56, {5.5}},   {60, {5.5}}, {64, {6}}, {68, {6}},
  };
  return list;
}

/// ISO 261, fine, M3 to M100, third choices included (from memory).
const std::vector<Metric>& fine_list() {
  static const std::vector<Metric> list{
      {3, {0.35}},
      {3.5, {0.35}},
      {4, {0.5}},
      {4.5, {0.5}},
      {5, {0.5}},
      {5.5, {0.5}},
      {6, {0.75}},
      {7, {0.75}},
      {8, {0.75, 1}},
      {9, {0.75, 1}},
      {10, {0.75, 1, 1.25}},
      {11, {0.75, 1}},
      {12, {1, 1.25, 1.5}},
      {14, {1, 1.25, 1.5}},
      {15, {1, 1.5}},
      {16, {1, 1.5}},
      {17, {1, 1.5}},
      {18, {1, 1.5, 2}},
      {20, {1, 1.5, 2}},
      {22, {1, 1.5, 2}},
      {24, {1, 1.5, 2}},
      {25, {1, 1.5, 2}},
      {26, {1.5}},
      {27, {1, 1.5, 2}},
      {28, {1, 1.5, 2}},
      {30, {1, 1.5, 2, 3}},
      {32, {1.5, 2}},
      {33, {1.5, 2, 3}},
      {35, {1.5}},
      {36, {1.5, 2, 3}},
      {38, {1.5}},
      {39, {1.5, 2, 3}},
      {40, {1.5, 2, 3}},
      {42, {1.5, 2, 3, 4}},
      {45, {1.5, 2, 3, 4}},
      {48, {1.5, 2, 3, 4}},
      {50, {1.5, 2, 3}},
      {52, {1.5, 2, 3, 4}},
      {55, {1.5, 2, 3, 4}},
      {56, {1.5, 2, 3, 4}},
      {58, {1.5, 2, 3, 4}},
      {60, {1.5, 2, 3, 4}},
      {62, {1.5, 2, 3, 4}},
      {64, {1.5, 2, 3, 4}},
      {65, {1.5, 2, 3, 4}},
      {68, {1.5, 2, 3, 4}},
      {70, {1.5, 2, 3, 4, 6}},
      {72, {1.5, 2, 3, 4, 6}},
      {75, {1.5, 2, 3, 4}},
      {76, {1.5, 2, 3, 4, 6}},
      {78, {2}},
      {80, {1.5, 2, 3, 4, 6}},
      {82, {2}},
      {85, {2, 3, 4, 6}},
      {90, {2, 3, 4, 6}},
      {95, {2, 3, 4, 6}},
      {100, {2, 3, 4, 6}},
  };
  return list;
}

/// ASME B1.1, UNC from 1/4 in (the sizes of Shigley Table 8-2 seen, the rest from memory).
const std::vector<Inch>& unc_list() {
  static const std::vector<Inch> list{
      {4, 20}, {5, 18}, {6, 16}, {7, 14},   {8, 13},   {9, 12}, {10, 11}, {12, 10}, {14, 9}, {16, 8}, {18, 7}, {20, 7},
      {22, 6}, {24, 6}, {28, 5}, {32, 4.5}, {36, 4.5}, {40, 4}, {44, 4},  {48, 4},  {52, 4}, {56, 4}, {60, 4}, {64, 4},
  };
  return list;
}

/// ASME B1.1, UNF from 1/4 in (3/4-16 seen, the rest from memory).
const std::vector<Inch>& unf_list() {
  static const std::vector<Inch> list{
      {4, 28},  {5, 24},  {6, 24},  {7, 20},  {8, 20},  {9, 18},  {10, 18},
      {12, 16}, {14, 14}, {16, 12}, {18, 12}, {20, 12}, {22, 12}, {24, 12},
  };
  return list;
}

/// Divided, not multiplied: the nearest double to the decimal, as a reader of "24.5 mm" gets it.
void add(std::vector<Size>& sizes, const std::vector<Metric>& list) {
  for (const Metric& metric : list)
    for (const double pitch : metric.pitches) sizes.push_back({metric.diameter / 1000, pitch / 1000});
}

void add(std::vector<Size>& sizes, const std::vector<Inch>& list) {
  constexpr double inch = 0.0254;
  for (const Inch& row : list) sizes.push_back({row.sixteenths / 16.0 * inch, inch / row.threads});
}

template <class... Lists>
std::vector<Size> sizes_of(const Lists&... lists) {
  std::vector<Size> sizes;
  (add(sizes, lists), ...);
  std::sort(sizes.begin(), sizes.end(), [](const Size& a, const Size& b) {
    return a.diameter != b.diameter ? a.diameter < b.diameter : a.pitch < b.pitch;
  });
  return sizes;
}

const std::vector<Size>& coarse_series(Form form) {
  static const std::vector<Size> metric = sizes_of(coarse_list()), unified = sizes_of(unc_list()), none;
  return form == Form::iso_metric ? metric : form == Form::unified ? unified : none;
}

bool same(double a, double b) { return std::abs(a - b) <= 1e-9 * b; }

/// How far a size is from what was asked, on the logarithms; the diameter weighs four times the pitch, because who asks
/// for a pitch that is not made at his diameter mostly wants the diameter.
double distance(const Size& size, double diameter, double pitch) {
  return 4 * std::abs(std::log(size.diameter / diameter)) + std::abs(std::log(size.pitch / pitch));
}

}  // namespace

const std::vector<Size>& series(Form form) {
  static const std::vector<Size> trapezoidal = sizes_of(trapezoidal_list()), acme = sizes_of(acme_list()),
                                 metric = sizes_of(coarse_list(), fine_list()),
                                 unified = sizes_of(unc_list(), unf_list()), none;
  switch (form) {
    case Form::trapezoidal:
      return trapezoidal;
    case Form::acme:
    case Form::stub_acme:
      return acme;
    case Form::iso_metric:
      return metric;
    case Form::unified:
      return unified;
    case Form::square:
    case Form::buttress_7_45:
    case Form::buttress_3_30:
      break;
  }
  return none;
}

const Size* size_on_series(Form form, double diameter, double pitch) {
  for (const Size& size : series(form))
    if (same(diameter, size.diameter) && same(pitch, size.pitch)) return &size;
  return nullptr;
}

const Size* coarse_size(Form form, double diameter) {
  for (const Size& size : coarse_series(form))
    if (same(diameter, size.diameter)) return &size;
  return nullptr;
}

std::vector<Size> nearest_sizes(Form form, double diameter, double pitch, std::size_t count) {
  std::vector<Size> sizes = series(form);
  std::stable_sort(sizes.begin(), sizes.end(), [&](const Size& a, const Size& b) {
    return distance(a, diameter, pitch) < distance(b, diameter, pitch);
  });
  sizes.resize(std::min(count, sizes.size()));
  return sizes;
}

}  // namespace models
