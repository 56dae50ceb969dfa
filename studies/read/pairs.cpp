#include "studies/read/pairs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/read/suggest.hpp"

namespace studies::read {
namespace {

using engine::Dimension;
using models::Face;
using models::FaceFriction;
using models::Input;
using models::ThreadFriction;

const Scatter& scatter_of(const Study& study, Input input) { return study.scatter[static_cast<std::size_t>(input)]; }

const FaceFriction* face_row(const Study& study, const Face& face) {
  return find_face_friction(study.tables, face.kind == Face::Kind::rolling ? "rolling" : "pad", face.on, face.hard);
}

double middle(const FaceFriction& row) { return row.running > 0 ? row.running : std::sqrt(row.low * row.high); }

void agree(std::optional<double>& all, bool& first, std::optional<double> one) {
  if (first)
    all = one;
  else if (!all || !one || !same(*all, *one))
    all.reset();
  first = false;
}

/// What can be done where the table has no friction of a thread pair.
std::string thread_fix(const std::vector<std::string>& there) {
  if (there.empty()) return "type thread_friction in [scatter]";
  return fmt::format("choose lubrication {}, or type thread_friction in [scatter]", one_of(there));
}

void check_thread(Page& page, const View& choose) {
  const Study& study = page.study;
  const Choices& c = study.choices;
  if (c.screw.empty() || c.nut.empty()) return;
  if (!choose.has("lubrication")) {
    if (!page.spoiled(choose))
      page.refuse(choose.place("lubrication"), "'choose.lubrication' is missing",
                  "The thread friction comes from the table, which goes by it",
                  thread_fix(lubrications(study.tables, c.screw.front(), c.nut.front())));
    return;
  }
  for (const std::string& lubrication : c.lubrication)
    for (const models::Material& screw : c.screw)
      for (const models::Material& nut : c.nut) {
        if (lubrication.empty()) continue;
        const ThreadFriction* row = find_thread_friction(study.tables, screw, nut, lubrication);
        if (!row) {
          page.refuse(choose.find("lubrication")->place,
                      fmt::format("no published friction of {} on {}, {}", screw.name, nut.name, lubrication),
                      "The table has no such row", thread_fix(lubrications(study.tables, screw, nut)));
          continue;
        }
        const std::string given = fmt::format("handbook: {}, {} on {}", lubrication, screw.family, nut.family);
        page.echo_other("scatter.thread_friction.low", given, row->low, Dimension::none, "table: " + row->source);
        page.echo_other("scatter.thread_friction.high", given, row->high, Dimension::none, "table: " + row->source);
      }
}

void check_face(Page& page, const View& choose) {
  std::size_t index = 0;
  const std::vector<Face>& faces = page.study.choices.face;
  for (const Face& face : faces) {
    const engine::Node& typed = *choose.find("face");
    // Faces that were refused are not among the choices, so the list may be the longer one.
    const engine::Node& node =
        typed.kind == engine::Node::Kind::list && typed.items.size() == faces.size() ? typed.items[index] : typed;
    const engine::Place place = node.place;
    ++index;
    if (const FaceFriction* row = face_row(page.study, face)) {
      const std::string given = "handbook: " + describe(face);
      page.echo_other("scatter.face_friction.low", given, row->running > 0 ? 0.8 * row->running : row->low,
                      Dimension::none, "table: " + row->source);
      page.echo_other("scatter.face_friction.high", given, row->running > 0 ? 1.25 * row->running : row->high,
                      Dimension::none, "table: " + row->source);
    } else if (face.on.empty() && face.kind != Face::Kind::rolling) {
      if (!page.spoiled({&node, ""}))
        page.refuse(place, "the face does not say what it runs on",
                    "Its friction comes from the table, which goes by it",
                    "write on = \"bronze\" or \"cast iron\", or type face_friction in [scatter]");
    } else {
      page.refuse(place, fmt::format("no published friction of a face on {}", face.on), "The table has no such row",
                  "type face_friction in [scatter]");
    }
  }
}

bool of_one_kind(const std::vector<Face>& faces) {
  const auto differs = [&](const Face& face) {
    const bool rolling = face.kind == Face::Kind::rolling, first = faces.front().kind == Face::Kind::rolling;
    return rolling != first || (!rolling && (face.on != faces.front().on || face.hard != faces.front().hard));
  };
  return faces.empty() || std::none_of(faces.begin(), faces.end(), differs);
}

}  // namespace

std::optional<double> table_thread_friction(const Study& study) {
  std::optional<double> all;
  bool first = true;
  for (const std::string& lubrication : study.choices.lubrication)
    for (const models::Material& screw : study.choices.screw)
      for (const models::Material& nut : study.choices.nut) {
        const ThreadFriction* row = find_thread_friction(study.tables, screw, nut, lubrication);
        agree(all, first, row ? std::optional<double>(std::sqrt(row->low * row->high)) : std::nullopt);
      }
  return all;
}

std::optional<double> table_face_friction(const Study& study) {
  std::optional<double> all;
  bool first = true;
  for (const Face& face : study.choices.face) {
    const FaceFriction* row = face_row(study, face);
    agree(all, first, row ? std::optional<double>(middle(*row)) : std::nullopt);
  }
  return all;
}

void check_friction(Page& page) {
  const View choose = page.table(page.top(), "choose");
  if (!choose.node) return;
  if (scatter_of(page.study, Input::thread_friction).handbook) check_thread(page, choose);
  const Scatter& face = scatter_of(page.study, Input::face_friction);
  if (face.handbook)
    check_face(page, choose);
  else if (!of_one_kind(page.study.choices.face))
    page.refuse(face.place, "one face_friction is typed for faces of different kinds", "They do not rub alike",
                "choose faces of one kind, or take face_friction out so that the table answers");
}

}  // namespace studies::read
