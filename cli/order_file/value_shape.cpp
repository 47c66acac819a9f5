#include "cli/order_file/value_shape.hpp"

#include "cli/order_file/order_values.hpp"

namespace shankline {
namespace {

ValueShape of_guide(ValueShape::Kind kind, std::string_view guide) {
  ValueShape shape{kind};
  shape.guide = guide;
  return shape;
}

} // namespace

ValueShape number_shape(std::string_view guide) {
  return of_guide(ValueShape::Kind::number, guide);
}

ValueShape repeats_shape(std::string_view guide) {
  ValueShape shape = of_guide(ValueShape::Kind::repeats, guide);
  shape.least = 1;
  shape.most = most_repeats;
  return shape;
}

ValueShape reading_shape(std::string_view guide) {
  ValueShape doubted = map_shape(
      {{"value", repeats_shape(guide)}, {"within", of_guide(ValueShape::Kind::within, guide)}},
      {{"value"}});
  return either_shape({repeats_shape(guide), std::move(doubted)});
}

ValueShape whole_shape(std::string_view guide) {
  return of_guide(ValueShape::Kind::whole, guide);
}

ValueShape words_shape(std::vector<std::string> words) {
  ValueShape shape{ValueShape::Kind::words};
  shape.words = std::move(words);
  return shape;
}

ValueShape text_shape(std::size_t most) {
  ValueShape shape{ValueShape::Kind::text};
  shape.least = 1;
  shape.most = most;
  return shape;
}

ValueShape flag_shape() {
  return {ValueShape::Kind::flag};
}

ValueShape own_words_shape(std::size_t longest_key, std::size_t longest_text,
                           std::size_t most_rows) {
  ValueShape shape{ValueShape::Kind::own};
  shape.parts = {text_shape(longest_text)};
  shape.least = 1;
  shape.most = most_rows;
  shape.longest_key = longest_key;
  return shape;
}

ValueShape list_shape(ValueShape item, std::size_t least, std::size_t most) {
  ValueShape shape{ValueShape::Kind::list};
  shape.parts = {std::move(item)};
  shape.least = least;
  shape.most = most;
  return shape;
}

ValueShape row_shape(std::vector<ValueShape> parts) {
  ValueShape shape{ValueShape::Kind::row};
  shape.parts = std::move(parts);
  return shape;
}

ValueShape either_shape(std::vector<ValueShape> parts) {
  ValueShape shape{ValueShape::Kind::either};
  shape.parts = std::move(parts);
  return shape;
}

ValueShape map_shape(std::vector<ValueShape::Key> keys,
                     std::vector<std::vector<std::string>> needed) {
  ValueShape shape{ValueShape::Kind::map};
  shape.keys = std::move(keys);
  shape.needed = std::move(needed);
  return shape;
}

} // namespace shankline
