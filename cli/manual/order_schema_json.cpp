#include "cli/manual/order_schema_json.hpp"

#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/value_shape.hpp"
#include "cli/yaml/order_document.hpp"
#include "geometry/order/reading_guide.hpp"

#include <cstdint>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string_view>

namespace shankline {
namespace {

using Json = nlohmann::ordered_json;

const ReadingGuide& row_of(const ValueShape& shape) {
  const ReadingGuide* row = reading_guide(shape.guide);
  if (!row) throw std::logic_error("the reading guide has no row " + shape.guide);
  return *row;
}

const char* unit_of(Quantity quantity) {
  switch (quantity) {
  case Quantity::length:
    return "mm";
  case Quantity::angle:
    return "degrees";
  case Quantity::percent:
    return "1";
  case Quantity::mass:
    return "g";
  case Quantity::number:
    return "";
  }
  throw std::logic_error("quantity without a unit");
}

std::string description(const ReadingGuide& row) {
  std::string words = std::string(row.name);
  if (const std::string unit = unit_of(row.quantity); !unit.empty())
    words += row.quantity == Quantity::percent ? ", a bare number as a fraction of 1"
                                               : ", a bare number in " + unit;
  return words + ". " + std::string(row.how);
}

const char* name_of(Quantity quantity) {
  switch (quantity) {
  case Quantity::length:
    return "written_length";
  case Quantity::angle:
    return "written_angle";
  case Quantity::percent:
    return "written_percentage";
  case Quantity::mass:
    return "written_mass";
  case Quantity::number:
    return "written_number";
  }
  throw std::logic_error("quantity without a name");
}

/// A figure as text: with a unit, or in quotation marks. The reader's grammar (quantity.cpp).
Json written_figures() {
  const std::string spaces = "[ \t\n\u00a0\u2009\u202f]*";
  const std::string decimal = "-?((0|[1-9][0-9]*)(\\.[0-9]*)?|\\.[0-9]+)([eE][-+]?[0-9]{1,2})?";
  const std::string fraction = "-?((0|[1-9][0-9]*)" + spaces + ")?(0|[1-9][0-9]*)/(2|4|8|16|32|64)";
  const std::string inches = "[iI][nN]([cC][hH]([eE][sS])?)?";
  const auto text = [](const std::string& pattern) {
    return Json{{"type", "string"}, {"pattern", "^" + pattern + "$"}};
  };
  const auto with = [&](const std::string& units) {
    return text(spaces + decimal + spaces + "(" + units + ")?" + spaces);
  };
  Json figures;
  figures[name_of(Quantity::length)] = {
      {"anyOf",
       {with("[mM][mM]|[cC][mM]|" + inches), text(spaces + fraction + spaces + inches + spaces)}}};
  figures[name_of(Quantity::angle)] = with("[dD][eE][gG]([rR][eE][eE][sS])?|\u00b0");
  figures[name_of(Quantity::percent)] = with("%");
  figures[name_of(Quantity::mass)] = with("[kK]?[gG]");
  figures[name_of(Quantity::number)] = text(spaces + decimal + spaces);
  return figures;
}

Json either(Json parts) {
  return {{"anyOf", std::move(parts)}};
}

Json figure_within(double least, double most, Quantity quantity, const char* type) {
  Json bare{{"type", type}};
  if (quantity == Quantity::percent) { // a bare 12 may be a percentage or a fraction: it is refused
    bare["minimum"] = least / 100;
    if (most < 100)
      bare["maximum"] = most / 100;
    else
      bare["exclusiveMaximum"] = 1;
  } else {
    bare["minimum"] = least;
    bare["maximum"] = most;
  }
  return either({std::move(bare), Json{{"$ref", "#/$defs/" + std::string(name_of(quantity))}}});
}

Json list(Json items, std::size_t least, std::size_t most) {
  Json schema{{"type", "array"}, {"items", std::move(items)}};
  if (least > 0) schema["minItems"] = least;
  if (most != SIZE_MAX) schema["maxItems"] = most;
  return schema;
}

/// Writes what occurs more than once into `$defs`, under a name.
class SchemaWriter {
public:
  SchemaWriter() : definitions_(written_figures()) {}

  Json schema(const ValueShape& shape) {
    using Kind = ValueShape::Kind;
    switch (shape.kind) {
    case Kind::number:
      return number(shape, "number");
    case Kind::whole:
      return number(shape, "integer");
    case Kind::repeats:
      return defined("repeats." + shape.guide, [&] {
        const Json one = number(shape, "number");
        return either({one, list(one, shape.least, shape.most)});
      });
    case Kind::within:
      return within(shape);
    case Kind::words:
      return {{"enum", shape.words}};
    case Kind::text: // YAML has no quotation marks around "3" or "true"
      return {{"type", {"string", "number", "boolean"}},
              {"minLength", shape.least},
              {"maxLength", shape.most}};
    case Kind::flag:
      return {{"type", "boolean"}};
    case Kind::map:
      return shape.name.empty() ? map(shape) : defined(shape.name, [&] { return map(shape); });
    case Kind::own:
      return {{"type", "object"},
              {"minProperties", shape.least},
              {"maxProperties", shape.most},
              {"propertyNames", {{"minLength", 1}, {"maxLength", shape.longest_key}}},
              {"additionalProperties", schema(shape.parts.front())}};
    case Kind::list:
      return list(schema(shape.parts.front()), shape.least, shape.most);
    case Kind::row:
      return {{"type", "array"},
              {"prefixItems", schemas(shape.parts)},
              {"minItems", shape.parts.size()},
              {"maxItems", shape.parts.size()}};
    case Kind::either:
      return either(schemas(shape.parts));
    }
    throw std::logic_error("shape without a schema");
  }

  Json definitions() && { return std::move(definitions_); }

private:
  template <class Make> Json defined(const std::string& name, Make make) {
    if (!definitions_.contains(name)) definitions_[name] = make();
    return {{"$ref", "#/$defs/" + name}};
  }

  Json number(const ValueShape& shape, const char* type) {
    return defined("figure." + shape.guide, [&] {
      const ReadingGuide& row = row_of(shape);
      Json schema = figure_within(row.least, row.most, row.quantity, type);
      schema["description"] = description(row);
      return schema;
    });
  }

  Json within(const ValueShape& shape) {
    const ReadingGuide& row = row_of(shape);
    Json schema = figure_within(0, row.most - row.least, row.quantity, "number");
    schema["description"] = "The half-width that the true figure surely lies in.";
    return schema;
  }

  Json schemas(const std::vector<ValueShape>& shapes) {
    Json all = Json::array();
    for (const ValueShape& shape : shapes)
      all.push_back(schema(shape));
    return all;
  }

  Json map(const ValueShape& shape) {
    Json properties = Json::object();
    for (const auto& [key, value] : shape.keys)
      properties[key] = schema(value);
    Json written{{"type", "object"}, {"properties", std::move(properties)}};
    Json needed = Json::array();
    Json groups = Json::array();
    for (const std::vector<std::string>& group : shape.needed) {
      if (group.size() == 1) {
        needed.push_back(group.front());
        continue;
      }
      Json one_of_them = Json::array();
      for (const std::string& key : group)
        one_of_them.push_back({{"required", {key}}});
      groups.push_back({{"anyOf", std::move(one_of_them)}});
    }
    if (!needed.empty()) written["required"] = std::move(needed);
    if (!groups.empty()) written["allOf"] = std::move(groups);
    written["additionalProperties"] = false;
    return written;
  }

  Json definitions_;
};

} // namespace

std::string order_schema() {
  Json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
              {"title", std::string(order_format)},
              {"description",
               "An order of shankline, in YAML or JSON. A bare number is in millimetres, or in the "
               "unit that its description gives. What depends on several keys together is held by "
               "`shankline check`."}};
  SchemaWriter writer;
  schema.update(writer.schema(order_shape()));
  schema["$defs"] = std::move(writer).definitions();
  return schema.dump(2) + "\n";
}

} // namespace shankline
