#include "export/page/sheet_set.hpp"

#include <algorithm>
#include <utility>

namespace shankline {

SheetSet named_set(std::string title, std::string subject) {
  SheetSet set;
  set.drawing.title = std::move(title);
  set.drawing.author = "shankline";
  set.drawing.subject = std::move(subject);
  return set;
}

SheetSet whole_set(SheetsInTurn sheets) {
  for (std::size_t i = 0; i < sheets.pages; ++i)
    sheets.set.drawing.pages.push_back(sheets.page(i));
  return std::move(sheets.set);
}

SheetSet shown_by(ChosenLettering chosen, SheetSet set) {
  set.drawing.lettering = std::move(chosen.lettering);
  set.missing_characters = std::move(chosen.missing_characters);
  return set;
}

std::vector<std::string> texts_of(const Order& order) {
  std::vector<std::string> texts{order.dancer, order.pair,       order.date,
                                 order.note,   order.decided_by, order.deliver_to};
  // Lines of a note are set one below the other: their ends are no characters to show.
  for (std::string& text : texts)
    std::replace(text.begin(), text.end(), '\n', ' ');
  for (const auto* foot : {&order.left, &order.right})
    if (*foot)
      for (const StockRow& row : (*foot)->shoe.stock) {
        texts.push_back(row.name);
        texts.push_back(row.words);
      }
  return texts;
}

ChosenLettering lettering_of(const Order& order, const FindFaces& find) {
  return choose_lettering(texts_of(order), find);
}

} // namespace shankline
