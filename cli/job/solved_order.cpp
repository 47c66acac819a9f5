#include "cli/job/solved_order.hpp"

#include "cli/order_file/order_text.hpp"
#include "cli/order_file/order_writer.hpp"
#include "cli/text/message.hpp"
#include "export/formats/digest.hpp"

#include <ostream>
#include <utility>
#include <variant>
#include <vector>

namespace shankline {
namespace {

Message nothing_asked(const std::string& file) {
  Message nothing;
  nothing.file = file;
  nothing.key = "alterations";
  nothing.what = "the order asks for nothing that this version draws";
  nothing.allowed = "shank, sides, thinned, liner, darning, ribbons, elastics, tuck";
  nothing.advice = "Write, for example:  shank: {reach: edge}";
  return nothing;
}

/// Cautions of a file that can be read are said later, with the solver's.
std::optional<OrderText> read_quietly(const OrderSource& source, std::ostream& messages,
                                      OrderText* as_read = nullptr) {
  OrderText order;
  if (source.text) {
    order.text = *source.text;
  } else {
    auto text = read_order_text(source.name);
    if (const Message* refused = std::get_if<Message>(&text)) {
      say({*refused}, messages);
      return {};
    }
    order.text = std::move(std::get<std::string>(text));
  }
  order.read = read_order(order.text, source.name == "-" ? "standard input" : source.name);
  if (as_read) *as_read = order;
  if (order.read.ok()) return order;
  say(order.read.messages, messages);
  return {};
}

/// Returns false after reporting an error.
bool completed(OrderText& order, const CompletingStep& complete, std::ostream& messages) {
  const Order as_read = order.read.order;
  const Findings errors = complete(order.read.order);
  if (!errors.empty()) {
    std::vector<Message> said = order.read.messages;
    for (Message& message : order.read.place(errors))
      said.push_back(std::move(message));
    say(said, messages);
    return false;
  }
  if (order.read.order != as_read) order.text = order_file_text(order.read.order);
  return true;
}

} // namespace

OrderSource order_source(const Request& request, std::size_t number) {
  const std::string& name = request.orders.at(number);
  if (number >= request.order_texts.size()) return {name};
  return {name, request.order_texts[number]};
}

OrderSource order_source(const Request& request, const std::string& name) {
  return request.order_texts.empty() ? OrderSource(name) : order_source(request, 0);
}

PairContact estimated_contact(SolvedOrder& solved) {
  PairContact contact = pair_contact(solved.order(), solved.solution);
  Findings& found = solved.solution.findings;
  found.insert(found.end(), contact.cautions.begin(), contact.cautions.end());
  return contact;
}

std::optional<OrderText> read_order_file(const std::string& path, std::ostream& messages) {
  auto order = read_quietly(path, messages);
  if (order) say(order->read.messages, messages);
  return order;
}

std::optional<SolvedOrder> solve_read_order(ReadOrder read, std::string text,
                                            std::ostream& messages, const FurtherStep& further) {
  SolvedOrder solved{std::move(read), std::move(text), {}, {}};
  solved.solution = solve(solved.order());
  const bool failed = has_error(solved.solution.findings);
  if (!failed && further) further(solved);
  std::vector<Message> said = solved.read.messages;
  for (Message& message : solved.read.place(solved.solution.findings))
    said.push_back(std::move(message));
  if (!failed && !solved.solution.left && !solved.solution.right)
    said.push_back(nothing_asked(solved.read.file));
  say(said, messages);
  if (has_error(said)) return {};
  solved.digest = short_digest(sha256(solved.text));
  return solved;
}

std::optional<SolvedOrder> solve_order(const OrderSource& source, std::ostream& messages,
                                       const FurtherStep& further, const CompletingStep& complete,
                                       OrderText* as_read) {
  auto order = read_quietly(source, messages, as_read);
  if (!order) return {};
  if (complete && !completed(*order, complete, messages)) return {};
  if (as_read) *as_read = *order; // perhaps written anew
  return solve_read_order(std::move(order->read), std::move(order->text), messages, further);
}

} // namespace shankline
