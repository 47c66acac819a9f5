#include "geometry/numerics/symmetric_matrix.hpp"

#include <algorithm>
#include <cmath>

namespace shankline {
namespace {

struct Rotation {
  double c, s;
};

/// The rotation that makes the element beside the diagonal zero, by the smaller angle.
Rotation annulling(double pp, double qq, double pq) {
  const double theta = (qq - pp) / (2 * pq);
  const double t = (theta < 0 ? -1 : 1) / (std::abs(theta) + std::hypot(theta, 1));
  const double c = 1 / std::hypot(t, 1);
  return {c, t * c};
}

void rotate(double& x, double& y, Rotation r) {
  const double first = r.c * x - r.s * y;
  y = r.s * x + r.c * y;
  x = first;
}

double beside_diagonal(const SymmetricMatrix& a) {
  double most = 0;
  for (std::size_t i = 0; i < a.rows(); ++i)
    for (std::size_t j = i + 1; j < a.rows(); ++j)
      most = std::max(most, std::abs(a(i, j)));
  return most;
}

double size_of(const SymmetricMatrix& a) {
  double most = beside_diagonal(a);
  for (std::size_t i = 0; i < a.rows(); ++i)
    most = std::max(most, std::abs(a(i, i)));
  return most;
}

} // namespace

Eigensystem eigensystem(SymmetricMatrix a) {
  const std::size_t n = a.rows();
  Eigensystem result{std::vector<double>(n), std::vector<std::vector<double>>(n)};
  for (std::size_t i = 0; i < n; ++i) {
    result.vectors[i].assign(n, 0);
    result.vectors[i][i] = 1;
  }
  const double small = 1e-15 * size_of(a);
  for (int sweep = 0; sweep < 60 && beside_diagonal(a) > small; ++sweep) {
    for (std::size_t p = 0; p < n; ++p) {
      for (std::size_t q = p + 1; q < n; ++q) {
        if (std::abs(a(p, q)) <= small) continue;
        const Rotation turn = annulling(a(p, p), a(q, q), a(p, q));
        for (std::size_t k = 0; k < n; ++k)
          rotate(a(k, p), a(k, q), turn);
        for (std::size_t k = 0; k < n; ++k)
          rotate(a(p, k), a(q, k), turn);
        for (std::size_t k = 0; k < n; ++k)
          rotate(result.vectors[p][k], result.vectors[q][k], turn);
      }
    }
  }
  for (std::size_t i = 0; i < n; ++i)
    result.values[i] = a(i, i);
  return result;
}

SymmetricMatrix floored_inverse(const Eigensystem& system, double floor) {
  const std::size_t n = system.values.size();
  SymmetricMatrix inverse(n);
  for (std::size_t k = 0; k < n; ++k) {
    const double weight = 1 / std::max(system.values[k], floor);
    const std::vector<double>& v = system.vectors[k];
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t j = 0; j < n; ++j)
        inverse(i, j) += weight * v[i] * v[j];
  }
  return inverse;
}

std::vector<double> product(const SymmetricMatrix& matrix, const std::vector<double>& x) {
  std::vector<double> result(matrix.rows());
  for (std::size_t i = 0; i < matrix.rows(); ++i)
    for (std::size_t j = 0; j < matrix.rows(); ++j)
      result[i] += matrix(i, j) * x[j];
  return result;
}

} // namespace shankline
