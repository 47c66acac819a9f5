#include "export/page/sheet_set.hpp"

#include <utility>

namespace shankline {

SheetSet named_set(std::string title, std::string subject) {
  SheetSet set;
  set.drawing.title = std::move(title);
  set.drawing.author = "shankline";
  set.drawing.subject = std::move(subject);
  return set;
}

SheetSet shown_by(ChosenLettering chosen, SheetSet set) {
  set.drawing.lettering = std::move(chosen.lettering);
  set.unshown = std::move(chosen.unshown);
  return set;
}

ChosenLettering lettering_of(const Order& order, const FindFaces& find) {
  return choose_lettering({order.dancer, order.pair, order.date, order.note}, find);
}

} // namespace shankline
