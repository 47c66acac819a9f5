// A request of the page from anybody: the first byte chooses what is asked, the rest is the body.
// Every answer has a known status and a sound body, and an order that comes back through its form
// is the same order.
#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/order_writer.hpp"
#include "cli/page/page_answers.hpp"
#include "cli/page/page_body_json.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string>
#include <variant>
#include <vector>

namespace {

using namespace shankline;

// What reads or changes an archive stays out: a fuzzer must not touch the user's.
constexpr std::array paths{"/live",  "/open",     "/text", "/sheets",  "/parts",
                           "/chart", "/pictures", "/try",  "/compare", "/nothing"};

void expect_sound(const PageAnswer& answer) {
  constexpr std::array known{200, 400, 404, 422};
  if (std::find(known.begin(), known.end(), answer.status) == known.end()) std::abort();
  if (answer.type == "application/pdf" ? !answer.body.starts_with("%PDF-")
                                       : !nlohmann::json::accept(answer.body))
    std::abort();
}

/// The order of a form is the order of its text.
void expect_same_order(const std::string& text) {
  const ReadOrder read = read_order(text, "order");
  if (!read.ok()) return;
  std::vector<Message> messages;
  const std::string form = page_document(text, "order", messages);
  const auto body = read_page_body("{\"document\":" + form + "}");
  const auto* const written = std::get_if<PageBody>(&body);
  if (!written || !written->order) std::abort();
  const ReadOrder again = read_order(*written->order, "order");
  if (!again.ok() || order_file_text(again.order) != order_file_text(read.order)) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  if (size == 0) return 0;
  const std::string body(bytes + 1, bytes + size);
  Request usual;
  usual.paper = *read_paper("a4");
  expect_sound(PageAnswers(usual).to(paths[bytes[0] % paths.size()], body));
  const auto read = read_page_body(body);
  if (const auto* asked = std::get_if<PageBody>(&read); asked && asked->order)
    expect_same_order(*asked->order);
  return 0;
}
