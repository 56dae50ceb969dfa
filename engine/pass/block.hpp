#pragma once
/// A block of passes, row by row: every stage of the pass loop is one plain loop over such rows.
#include <cstddef>
#include <memory>
#include <new>
#include <span>

namespace engine {

/// Passes in a block. A constant of the results: another size would change the last bits of means.
inline constexpr std::size_t block_size = 1024;

/// `rows` rows of block_size doubles, 64-byte aligned, zero at first.
class Block {
public:
  /// From one row to the next: a cache line more than block_size, or all rows would meet in the same few cache sets.
  static constexpr std::size_t stride = block_size + 8;

  explicit Block(std::size_t rows)
      : rows_(rows), data_(new (std::align_val_t{64}) double[rows * stride](), Release{}) {}

  std::size_t rows() const { return rows_; }
  double* row(std::size_t i) { return data_.get() + i * stride; }
  const double* row(std::size_t i) const { return data_.get() + i * stride; }

private:
  struct Release {
    void operator()(double* data) const { ::operator delete[](data, std::align_val_t{64}); }
  };
  std::size_t rows_;
  std::unique_ptr<double[], Release> data_;
};

/// Anybody's deterministic model: rows of inputs in, rows of outputs out, pass by pass and nothing carried between
/// passes.
class BlockModel {
public:
  virtual ~BlockModel() = default;
  virtual std::size_t inputs() const = 0;
  virtual std::size_t outputs() const = 0;
  /// @param x  `inputs()` rows, of which the first `passes` columns count
  /// @param y  `outputs()` rows; columns beyond `passes` are left alone. A value that does not exist is NaN.
  virtual void evaluate(const Block& x, Block& y, std::size_t passes) const = 0;
};

}  // namespace engine
