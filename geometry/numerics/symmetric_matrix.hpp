// A small dense symmetric matrix: eigenvalues by Jacobi's rotations, and an inverse from them.
//
// It is meant for tens of rows, where Jacobi's method is short, exact to rounding and always ends.
// A library of linear algebra would take longer to compile than this takes to run.
#pragma once

#include <cstddef>
#include <vector>

namespace shankline {

/// A square matrix that stores both halves. The caller keeps them equal.
class SymmetricMatrix {
public:
  explicit SymmetricMatrix(std::size_t rows) : rows_(rows), values_(rows * rows) {}
  std::size_t rows() const { return rows_; }
  double& operator()(std::size_t i, std::size_t j) { return values_[i * rows_ + j]; }
  double operator()(std::size_t i, std::size_t j) const { return values_[i * rows_ + j]; }

private:
  std::size_t rows_;
  std::vector<double> values_;
};

/// A = Σ values[i] · v_i v_iᵀ with v_i = vectors[i], orthonormal. The values are not sorted.
struct Eigensystem {
  std::vector<double> values;
  std::vector<std::vector<double>> vectors;
};

/// Cyclic Jacobi (Golub and Van Loan, Matrix Computations, section 8.5; from memory): sweeps until
/// everything beside the diagonal is below 1e-15 of the matrix's size, at most 60 of them.
Eigensystem eigensystem(SymmetricMatrix matrix);

/// Σ vectors[i] vectors[i]ᵀ / max(values[i], floor): the inverse, with small and negative
/// eigenvalues raised to `floor`, which must be positive.
SymmetricMatrix floored_inverse(const Eigensystem& system, double floor);

/// matrix · x
std::vector<double> product(const SymmetricMatrix& matrix, const std::vector<double>& x);

} // namespace shankline
