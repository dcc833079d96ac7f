// Prints numbers of the statistics core for statistics_check.py to compare with scipy: one line a
// number, its name first. Reads an x and y column from standard input and fits a line to them.
#include <cstdio>
#include <iostream>
#include <limits>
#include <vector>

#include "statistics/least_squares.hpp"
#include "statistics/quantile.hpp"
#include "statistics/random.hpp"

using namespace gelwright;

namespace {

void print_normal() {
  for (const double p : {1e-300, 1e-100, 1e-20, 1e-12, 1.3e-11, 1e-6, 0.001, 0.025, 0.0749, 0.0751,
                         0.2, 0.5, 0.6, 0.9249, 0.9251, 0.975, 0.999, 0.999999999})
    std::printf("normal %.17g %.17g\n", p, inverse_normal(p));
}

void print_student() {
  for (const double p : {1e-6, 0.025, 0.3, 0.6, 0.95, 0.975, 0.995, 0.9999})
    for (const double nu : {1.0, 1.5, 2.0, 3.0, 4.0, 7.0, 12.0, 34.0, 200.0, 1e5})
      std::printf("student %.17g %.17g %.17g\n", p, nu, student_t_quantile(p, nu));
}

void print_gamma() {
  for (const double x :
       {1e-9, 0.03, 0.5, 0.999, 1.0, 1.5, 2.0, 2.001, 7.9, 8.0, 33.3, 1e3, 1e6, 1e12})
    std::printf("gamma %.17g %.17g\n", x, log_gamma(x));
}

void print_beta() {
  for (const double a : {0.5, 2.0, 17.5, 2500.0, 97500.0})
    for (const double b : {0.5, 3.0, 40.0, 2501.0})
      for (const double share : {0.9, 0.99, 1.0, 1.01, 1.1}) {
        const double x = share * a / (a + b);
        if (x < 1.0)
          std::printf("beta %.17g %.17g %.17g %.17g\n", a, b, x, incomplete_beta(a, b, x));
      }
}

void print_sample() {
  std::vector<double> x(2001);
  std::vector<double> y(2001);
  for (std::size_t i = 0; i < x.size(); ++i) {
    x[i] = standard_normal({77, 0, i});
    y[i] = 0.4 * x[i] + rectangular({77, 1, i}, -1.0, 2.0);
    if (i % 3 == 0) y[i] = 0.5;  // ties
    std::printf("sample %.17g %.17g\n", x[i], y[i]);
  }
  std::printf("spearman %.17g\n", spearman(x, y));
  const Moments m = moments(x);
  std::printf("moments %.17g %.17g\n", m.mean, m.sd);
  for (const double p : {0.025, 0.31, 0.5, 0.975}) {
    const Quantile q = quantile(x, p);
    std::printf("quantile %.17g %.17g %.17g %.17g\n", p, q.value, q.low, q.high);
  }
}

void print_line_fit() {
  std::vector<double> x;
  std::vector<double> y;
  for (double a = 0, b = 0; std::cin >> a >> b;) {
    x.push_back(a);
    y.push_back(b);
  }
  const double infinity = std::numeric_limits<double>::infinity();
  const Fit fit = fit_least_squares(
      [&](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < r.size(); ++i) r[i] = p[0] + p[1] * x[i] - y[i];
      },
      {{0.0, 0.0}, {-infinity, -infinity}, {infinity, infinity}, x.size()});
  std::printf("line %.17g %.17g %.17g %.17g %.17g %.17g\n", fit.parameters[0], fit.parameters[1],
              fit.standard_errors[0], fit.standard_errors[1], fit.residual_sd, fit.correlation[1]);
  const std::vector<double> t = studentised_residuals(fit);
  for (std::size_t i = 0; i < t.size(); ++i)
    std::printf("reading %.17g %.17g %.17g\n", fit.residuals[i], fit.leverages[i], t[i]);
}

}  // namespace

int main() {
  print_normal();
  print_student();
  print_gamma();
  print_beta();
  print_sample();
  print_line_fit();
}
