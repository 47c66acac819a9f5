#include "geometry/numerics/symmetric_matrix.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace shankline::tests::symmetric_matrix_test {
namespace {

// The second-difference matrix of n rows has the eigenvalues 2 − 2 cos(kπ/(n + 1)).
TEST(SymmetricMatrix, SecondDifferencesHaveKnownEigenvalues) {
  constexpr std::size_t n = 12;
  SymmetricMatrix matrix(n);
  for (std::size_t i = 0; i < n; ++i) {
    matrix(i, i) = 2;
    if (i > 0) matrix(i, i - 1) = matrix(i - 1, i) = -1;
  }
  auto values = eigensystem(matrix).values;
  std::ranges::sort(values);
  for (std::size_t k = 0; k < n; ++k)
    EXPECT_NEAR(values[k],
                2 - 2 * std::cos(static_cast<double>(k + 1) * std::numbers::pi / (n + 1)), 1e-13);
}

TEST(SymmetricMatrix, InverseTimesMatrixIsOne) {
  std::mt19937_64 engine(3);
  for (std::size_t n = 1; n <= 40; n += 13) {
    SymmetricMatrix matrix(n);
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < i; ++j)
        matrix(i, j) = matrix(j, i) = static_cast<double>(engine() % 2001) / 1000 - 1;
      matrix(i, i) = static_cast<double>(2 * n); // positive definite by its diagonal
    }
    const SymmetricMatrix inverse = floored_inverse(eigensystem(matrix), 1e-3);
    for (std::size_t i = 0; i < n; ++i) {
      std::vector<double> column(n);
      for (std::size_t j = 0; j < n; ++j)
        column[j] = matrix(j, i);
      const auto one = product(inverse, column);
      for (std::size_t j = 0; j < n; ++j)
        EXPECT_NEAR(one[j], i == j ? 1 : 0, 1e-12);
    }
  }
}

TEST(SymmetricMatrix, SmallAndNegativeEigenvaluesAreRaised) {
  SymmetricMatrix matrix(2); // eigenvalues 3 and −1 along (1, 1) and (1, −1)
  matrix(0, 0) = matrix(1, 1) = 1;
  matrix(0, 1) = matrix(1, 0) = 2;
  const SymmetricMatrix inverse = floored_inverse(eigensystem(matrix), 0.5);
  EXPECT_NEAR(inverse(0, 0), (1 / 3.0 + 2) / 2, 1e-14);
  EXPECT_NEAR(inverse(0, 1), (1 / 3.0 - 2) / 2, 1e-14);
}

} // namespace
} // namespace shankline::tests::symmetric_matrix_test
