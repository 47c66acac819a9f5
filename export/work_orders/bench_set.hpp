// Context of sheets that show many orders: the strip at the head names none of them.
#pragma once

#include "export/page/sheet_page.hpp"
#include "export/page/sheet_set.hpp"
#include "export/work_orders/rack_shoe.hpp"

#include <string>
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
SheetSet bench_set(const std::string& title, const std::vector<RackShoe>& shoes,
                   const SheetWish& wish, const Paper& paper) {
  ChosenLettering chosen = lettering_of(shoes, wish.find_faces);
  const Typeface typeface(chosen.lettering);
  SheetSet set = named_set(title, "alterations of several pairs");
  set.drawing.pages = Layout(shoes, typeface, paper, wish.units).draw();
  return shown_by(std::move(chosen), std::move(set));
}

} // namespace shankline
