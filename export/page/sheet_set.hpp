// A set of sheets: one drawing, and where its parts lie.
#pragma once

#include "export/drawing/drawing.hpp"
#include "export/drawing/length_text.hpp"
#include "export/drawing/template.hpp"
#include "export/lettering/lettering.hpp"
#include "geometry/breaking/break_chart.hpp"
#include "geometry/order/order.hpp"
#include "geometry/order/station.hpp"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace shankline {

struct SheetSet {
  Drawing drawing;
  std::vector<Template> templates;
  std::vector<Proof> proofs;
  MissingCharacters
      missing_characters;            ///< characters of the order's texts; on the page each is a '?'
  std::vector<std::string> left_out; ///< of a comparison: pages that do not fit, and why
};

/// A set whose pages are drawn one by one, since all of them would take much memory.
struct SheetsInTurn {
  SheetSet set; ///< without its pages
  std::size_t pages = 0;
  std::function<Page(std::size_t)> page; ///< from 0; what it was made of must outlive it
};

/// Draws all pages.
SheetSet whole_set(SheetsInTurn sheets);

/// A set without pages yet: what a viewer says of it.
SheetSet named_set(std::string title, std::string subject);

/// Adds to the set the faces that its texts were laid out in, and the characters that these do not
/// show.
SheetSet shown_by(ChosenLettering chosen, SheetSet set);

struct FootChart {
  FootSide side = FootSide::left;
  BreakChart chart;
};

/// A try that was made already, for the dancer's card that goes on from it.
struct TriedBefore {
  FootSide foot = FootSide::left;
  BoardStation cut_off; ///< where the board ended, on the centre line
  std::string seen;     ///< in words
  std::string date;     ///< YYYY-MM-DD
  bool too_long = true; ///< the board was found too long; otherwise it is not cut on
  bool stops = false;   ///< nor is it later, unless it is found good
};

struct SheetWish {
  Paper paper;
  Units units = Units::mm;
  std::string digest;     ///< of the order's text, short
  FindFaces find_faces{}; ///< for texts beyond Western European ones; none for no such faces
  bool maker = false;     ///< the order for a maker or a workshop as well
  bool card = false;      ///< the dancer's card as well
  std::vector<TriedBefore> tried{}; ///< for the card: as the boards got shorter
  bool care = false;                ///< the page on breaking in and repair as well
};

/// The texts of an order that sheets show as they are.
std::vector<std::string> texts_of(const Order& order);

/// Chooses faces that can show the order's own texts.
ChosenLettering lettering_of(const Order& order, const FindFaces& find);

} // namespace shankline
