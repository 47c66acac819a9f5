// Reads the requests of the page and writes its answers, in JSON. Only the page uses this
// interface; it may change at any time.
#pragma once

#include "cli/archive/archive_entry.hpp"
#include "cli/text/message.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace shankline {

/// The body of a request. What was not sent is empty, false or 0.
struct PageBody {
  /// The order's text in YAML: as it was sent, or written from the form that was sent.
  std::optional<std::string> order;
  std::string name;   ///< of the file that the order was opened from
  std::string with;   ///< compare: the other order's text
  std::string action; ///< archive: "list", "history", ...
  std::string dancer;
  std::string paper;
  std::string units;
  std::string format; ///< parts: "svg" or "dxf"
  std::string foot;   ///< try: "left" or "right"
  std::string cut;    ///< try: as typed
  std::string back;   ///< try: as typed
  std::string seen;
  std::string by;
  EntryId id = 0;
  EntryId before = 0;
  bool maker = false;
  bool card = false;
  bool care = false;
  bool cut_only = false;
  bool past_final = false;
  bool worn = false;
  bool save = false;
};

/// Reads a body. `document` in it is the page's form, an object in the shape of an order file,
/// whose values are texts as they were typed, lists and objects of such, or true and false; it
/// becomes the order's text. Empty texts, lists and objects in it are left out. Returns in words
/// what is wrong with it.
std::variant<PageBody, std::string> read_page_body(std::string_view json);

/// An order's text as such a form, with what holds for both feet written out for each. Empty where
/// the text is no YAML map; `messages` gets the reasons.
std::string page_document(std::string_view order_text, const std::string& name,
                          std::vector<Message>& messages);

/// Whether an order's text has comments, which a form does not hold.
bool has_comments(std::string_view order_text);

/// An object, key by key.
class JsonAnswer {
public:
  /// `json` is a value in JSON already.
  void add(std::string_view key, std::string_view json);
  void add_text(std::string_view key, std::string_view text);
  void add_truth(std::string_view key, bool truth) { add(key, truth ? "true" : "false"); }
  std::string text() const { return "{" + members_ + "}"; }

private:
  std::string members_;
};

/// A text as a JSON value. Bytes that are no UTF-8 become U+FFFD.
std::string json_text(std::string_view text);

/// Values in JSON as a list.
std::string json_list(const std::vector<std::string>& values);

} // namespace shankline
