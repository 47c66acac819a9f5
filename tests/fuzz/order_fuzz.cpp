// Feeds any bytes to the reader of orders: it must answer, and say where when the answer is no.
#include "cli/order_file/order_reader.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const std::string text(bytes, bytes + size);
  const shankline::ReadOrder read = shankline::read_order(text, "order.yaml");
  for (const shankline::Message& message : read.messages)
    if (message.line < 1 || message.column < 1 || shankline::to_text(message).empty()) std::abort();
  if (read.ok() && !read.order.left && !read.order.right) std::abort();
  return 0;
}
