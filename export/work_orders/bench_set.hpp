// Context of sheets that show many orders: the strip at the head names none of them.
#pragma once

#include "export/page/sheet_page.hpp"
#include "export/page/sheet_set.hpp"
#include "export/work_orders/rack_shoe.hpp"

#include <cstddef>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace shankline {

struct BenchContext {
  Order nobody;
  SheetContext context;

  BenchContext(const Typeface& typeface, const Paper& paper, Units units, std::size_t pages)
      : context{nobody, typeface, paper, units, {}, pages} {}
  BenchContext(const BenchContext&) = delete; // the context refers to `nobody`
  BenchContext& operator=(const BenchContext&) = delete;
};

/// Chooses faces that can show the orders' own texts.
ChosenLettering lettering_of(const std::vector<RackShoe>& shoes, const FindFaces& find);

template <class Layout>
SheetsInTurn bench_sheets(const std::string& title, const std::vector<RackShoe>& shoes,
                          const SheetWish& wish, const Paper& paper) {
  struct Laid {
    Laid(ChosenLettering faces, const std::vector<RackShoe>& of, const Paper& on, Units units)
        : chosen(std::move(faces)), typeface(chosen.lettering), layout(of, typeface, on, units) {}
    ChosenLettering chosen;
    Typeface typeface;
    Layout layout;
  };
  const auto laid =
      std::make_shared<const Laid>(lettering_of(shoes, wish.find_faces), shoes, paper, wish.units);
  return {shown_by(laid->chosen, named_set(title, "alterations of several pairs")),
          laid->layout.pages(), [laid](std::size_t number) { return laid->layout.draw(number); }};
}

} // namespace shankline
