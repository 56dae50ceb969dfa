#include "tests/engine/rare_examples.hpp"

#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>
#include <stdexcept>

#include "engine/draw/marginal.hpp"
#include "engine/draw/tail.hpp"

namespace rare_examples {
namespace {

using engine::normal_distribution;
using U = std::vector<double>;

std::shared_ptr<const engine::rare::LimitState> point(std::size_t n, Pointwise::Margin margin) {
  return std::make_shared<Pointwise>(n, std::move(margin));
}

std::shared_ptr<const engine::rare::LimitState> sum(std::size_t n, double offset, std::function<double(double)> term) {
  return std::make_shared<Additive>(n, offset, std::move(term));
}

/// Unit exponential with Φ(z) below it, exact in both tails.
double exponential(double z) {
  return z > 0 ? -std::log(normal_distribution(-z)) : -std::log1p(-normal_distribution(z));
}

/// Gumbel of largest values, by mean and spread.
double gumbel(double mean, double spread, double z) {
  const double scale = spread * std::sqrt(6.0) / M_PI, mode = mean - 0.57721566490153286 * scale;
  const double minus_log = z > 0 ? -std::log1p(-normal_distribution(-z)) : -std::log(normal_distribution(z));
  return mode - scale * std::log(minus_log);
}

double lognormal(double mean, double spread, double z) {
  return engine::tail_value(engine::lognormal(mean, spread), z);
}

void plain(std::vector<Example>& to) {
  to.push_back({"R - S, normal", point(2, [](const U& u) { return 100 + 10 * u[0] - 20 * u[1]; }),
                normal_distribution(-100 / std::sqrt(500.0)), 0, "closed form, beta 4.472136"});
  to.push_back({"R - S, lognormal",
                point(2, [](const U& u) { return lognormal(200, 20, u[0]) - lognormal(100, 20, u[1]); }), 7.067777e-4,
                0, "closed form, beta 3.1918687664"});
  for (const std::size_t n : {100u, 1000u})
    to.push_back({"linear, n " + std::to_string(n),
                  sum(n, 6 * std::sqrt(static_cast<double>(n)), [](double z) { return -z; }), 9.86587645037698e-10, 0,
                  "Phi(-6)"});
  struct Sphere {
    std::size_t n;
    double r;
  };
  for (const Sphere s : {Sphere{2, 4}, {10, 5}, {100, 14}}) {
    to.push_back({"sphere, n " + std::to_string(s.n), sum(s.n, s.r * s.r, [](double z) { return -z * z; }),
                  boost::math::gamma_q(static_cast<double>(s.n) / 2, s.r * s.r / 2), 0, "chi-square tail"});
  }
}

void exponentials(std::vector<Example>& to) {
  const double tails[] = {1e-3, 1e-6, 1e-9};
  for (const std::size_t n : {20u, 100u})
    for (const bool lower : {true, false})
      for (const double p : tails) {
        const auto shape = static_cast<double>(n);
        const double c = lower ? boost::math::gamma_p_inv(shape, p) : boost::math::gamma_q_inv(shape, p);
        const double sign = lower ? 1 : -1;
        to.push_back({"exponentials, n " + std::to_string(n) + (lower ? " lower " : " upper ") +
                          (p > 1e-4   ? "1e-3"
                           : p > 1e-7 ? "1e-6"
                                      : "1e-9"),
                      sum(n, -sign * c, [sign](double z) { return sign * exponential(z); }), p, 0,
                      "Gamma quantile; Engelund & Rackwitz (1993)"});
      }
}

void pairs(std::vector<Example>& to) {
  struct Pair {
    const char* rho_name;
    double rho, parallel, series;
  };
  for (const Pair& p : {Pair{"0", 0, 1.822225e-6, 2.697974e-3},
                        {"0.5", 0.5, 8.188966e-5, 2.617906e-3},
                        {"0.9", 0.9, 6.104044e-4, 2.089392e-3}})
    for (const bool series : {false, true}) {
      const auto g = [rho = p.rho, series](const U& u) {
        const double one = 3 - u[0], other = 3 - rho * u[0] - std::sqrt(1 - rho * rho) * u[1];
        return series ? std::min(one, other) : std::max(one, other);
      };
      to.push_back({std::string(series ? "series" : "parallel") + ", correlation " + p.rho_name, point(2, g),
                    series ? p.series : p.parallel, 0, "bivariate normal integral"});
    }
}

double beam(const U& u) {
  const double mean[] = {1.56, 47.7, 3.5, 8, 13.2, 0.59, 326.25}, cov[] = {0.036, 0.15, 0.21, 0.045, 0.086, 0.05, 0.17};
  double x[7];
  for (std::size_t i = 0; i < 7; ++i) x[i] = mean[i] * (1 + cov[i] * u[i]);
  const auto [as, fy, fc, b, d, eta, m] = x;
  return as * fy * d * (1 - eta * as * fy / (b * d * fc)) - m;
}

double four_branch(const U& u, double k) {
  const double bow = 3 + 0.1 * (u[0] - u[1]) * (u[0] - u[1]), lean = (u[0] + u[1]) / std::sqrt(2.0);
  return std::min({bow - lean, bow + lean, u[0] - u[1] + k / std::sqrt(2.0), u[1] - u[0] + k / std::sqrt(2.0)});
}

void published(std::vector<Example>& to) {
  to.push_back({"YZ - M, normal",
                point(3, [](const U& u) { return (40 + 5 * u[0]) * (50 + 2.5 * u[1]) - (1000 + 200 * u[2]); }),
                1.189e-3, 8e-6, "Ang & Tang II ch. 6 (from memory); Monte Carlo of 2e7"});
  to.push_back(
      {"YZ - M, lognormal and Gumbel",
       point(3, [](const U& u) { return lognormal(40, 5, u[0]) * lognormal(50, 2.5, u[1]) - gumbel(1000, 200, u[2]); }),
       3.098e-3, 10e-6, "Ang & Tang (from memory); Monte Carlo"});
  to.push_back({"concrete beam", point(7, beam), 1.531e-4, 1.7e-6,
                "Haldar & Mahadevan (2000) p. 218 (from memory); Monte Carlo of 4e7"});
  to.push_back(
      {"convex",
       point(2, [](const U& u) { return 0.1 * (u[0] - u[1]) * (u[0] - u[1]) - (u[0] + u[1]) / std::sqrt(2.0) + 2.5; }),
       4.2073055e-3, 0, "exact integral"});
  to.push_back({"two design points", point(2, [](const U& u) { return 5 - u[1] - 0.5 * (u[0] - 0.1) * (u[0] - 0.1); }),
                3.0163119e-3, 0, "Der Kiureghian & Dakessian (1998); exact integral"});
  to.push_back({"four branches, k 7", point(2, [](const U& u) { return four_branch(u, 7); }), 2.2227951e-3, 0,
                "exact by rotation"});
  to.push_back({"four branches, k 6", point(2, [](const U& u) { return four_branch(u, 6); }), 4.4573315e-3, 0,
                "exact by rotation"});
  struct Sum {
    std::size_t n;
    double exact;
  };
  for (const Sum s : {Sum{40, 1.9814e-3}, {100, 1.7349e-3}, {250, 1.5875e-3}}) {
    const engine::Marginal m = engine::lognormal(1, 0.2);
    const double n = static_cast<double>(s.n);
    to.push_back({"lognormals, n " + std::to_string(s.n),
                  sum(s.n, n + 3 * 0.2 * std::sqrt(n), [m](double z) { return -std::exp(m.a + m.b * z); }), s.exact, 0,
                  "Rackwitz (2001); numerical convolution"});
  }
}

}  // namespace

void Pointwise::evaluate(const engine::Block& u, double* g, std::size_t n) const {
  std::vector<double> point(dimension_);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t d = 0; d < dimension_; ++d) point[d] = u.row(d)[i];
    g[i] = margin_(point);
  }
}

void Additive::evaluate(const engine::Block& u, double* g, std::size_t n) const {
  std::fill(g, g + n, offset_);
  for (std::size_t d = 0; d < dimension_; ++d)
    for (std::size_t i = 0; i < n; ++i) g[i] += term_(u.row(d)[i]);
}

std::vector<Example> all() {
  std::vector<Example> examples;
  plain(examples);
  exponentials(examples);
  pairs(examples);
  published(examples);
  return examples;
}

const Example& example(const std::string& name) {
  static const std::vector<Example> examples = all();
  const auto found = std::find_if(examples.begin(), examples.end(), [&](const Example& e) { return e.name == name; });
  if (found == examples.end()) throw std::invalid_argument(name);
  return *found;
}

}  // namespace rare_examples
