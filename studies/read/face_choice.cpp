#include <fmt/format.h>

#include <algorithm>

#include "studies/read/choose.hpp"

namespace studies::read {
namespace {

using engine::Node;
using models::Face;

/// Friction radius or diameters, not both; a point needs neither.
void read_radius(Page& page, const View& view, Face& face) {
  face.outer = page.number(view, "outer");
  face.inner = page.number(view, "inner");
  face.mean_radius = page.number(view, "mean_radius");
  const bool ring = view.has("outer") || view.has("inner");
  if (ring && view.has("mean_radius"))
    page.refuse(view.place("mean_radius"), "the face has both diameters and a mean_radius",
                "Either gives the friction radius", "keep one of them");
  if (face.kind == Face::Kind::point && ring)
    page.refuse(view.place(view.has("outer") ? "outer" : "inner"), "a point has no diameters", "",
                "write kind = \"pad\", or a mean_radius");
  if (face.kind != Face::Kind::point && !ring && !view.has("mean_radius") && !page.spoiled(view))
    page.refuse(view.node->place, "the face says no size", "Its friction radius follows from it",
                "write outer = \"…\" and inner = \"…\" (diameters), or mean_radius = \"…\"");
  if (view.has("inner") && !view.has("outer"))
    page.refuse(view.place("inner"), "the face has an inner diameter but no outer one", "", "write outer = \"…\" too");
  if (face.outer && face.inner && *face.inner >= *face.outer)
    page.refuse(view.place("inner"), "the inner diameter of the face is not below the outer one", "",
                "check the two diameters");
  if (face.mean_radius && view.has("law"))
    page.caution(Level::notice, "The law of the face has no say where its mean_radius is typed.", view.under("law"));
}

std::optional<Face> read_one(Page& page, const View& view) {
  std::vector<std::string> others = {"steel", "bronze", "cast iron"};
  for (const models::FaceFriction& row : page.study.tables.face_friction)
    if (!row.on.empty() && std::find(others.begin(), others.end(), row.on) == others.end()) others.push_back(row.on);
  Face face;
  const std::optional<std::string> kind = page.word(view, "kind", {"pad", "rolling", "point"});
  if (!view.has("kind") && !page.spoiled(view))
    page.refuse(view.node->place, "the face does not say its kind", "",
                "write kind = \"pad\", \"rolling\" or \"point\"");
  face.kind = kind == "rolling" ? Face::Kind::rolling : kind == "point" ? Face::Kind::point : Face::Kind::pad;
  if (kind) read_radius(page, view, face);
  const std::string law = page.word_or_default(view, "law", {"wear", "pressure"});
  face.law = law == "pressure" ? Face::Law::pressure : Face::Law::wear;
  if (view.has("on")) face.on = page.word(view, "on", others).value_or("");
  face.hard = page.truth_or_false(view, "hard");
  return kind ? std::optional<Face>(face) : std::nullopt;
}

}  // namespace

void read_face(Page& page, const View& choose) {
  const Node* node = choose.find("face");
  if (!node) return;
  const bool list = node->kind == Node::Kind::list;
  std::size_t index = 0;
  for (const Node* item : one_or_list(*node)) {
    const std::string path = list ? fmt::format("choose.face[{}]", index++) : "choose.face";
    if (item->kind != Node::Kind::table) {
      page.refuse_kind(*item, path, "a table, like { kind = \"pad\", mean_radius = \"4 mm\", on = \"bronze\" }");
      continue;
    }
    if (const auto face = read_one(page, {item, path})) page.study.choices.face.push_back(*face);
  }
}

}  // namespace studies::read
