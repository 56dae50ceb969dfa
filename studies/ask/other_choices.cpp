#include "studies/ask/other_choices.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "models/thread/series.hpp"
#include "studies/ask/candidates.hpp"

namespace studies {
namespace {

using models::Face;

bool same(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(a, b); }

bool same(const Face& a, const Face& b) {
  return describe(a) == describe(b) && a.friction_radius() == b.friction_radius();
}

bool by_handbook(const Study& study, models::Input friction) {
  return study.scatter[static_cast<std::size_t>(friction)].handbook;
}

std::string in_mm(double length) { return engine::plain(length * 1e3) + " mm"; }

/// The changes of one screw as they are gathered.
class Changes {
public:
  Changes(const Study& study, const models::Design& screw) : study_(study), screw_(screw) {}

  void lubrications() {
    std::vector<std::string> words = study_.choices.lubrication;
    const std::size_t listed = words.size();
    if (by_handbook(study_, models::Input::thread_friction))
      for (const std::string& word : models::lubrications(study_.tables, screw_.screw, screw_.nut))
        words.push_back(word);
    for (std::size_t i = 0; i < words.size(); ++i) {
      models::Design changed = screw_;
      changed.lubrication = words[i];
      if (words[i] != screw_.lubrication) add("lubrication", screw_.lubrication, words[i], i < listed, changed);
    }
  }

  void faces() {
    std::vector<Face> faces = study_.choices.face;
    const std::size_t listed = faces.size();
    if (const std::optional<Face> bearing = rolling_bearing()) faces.push_back(*bearing);
    for (std::size_t i = 0; i < faces.size(); ++i) {
      models::Design changed = screw_;
      changed.face = faces[i];
      const bool told = std::any_of(faces.begin(), faces.begin() + static_cast<std::ptrdiff_t>(i),
                                    [&](const Face& face) { return same(face, faces[i]); });
      if (!told && !same(faces[i], screw_.face))
        add("face", describe(screw_.face), describe(faces[i]), i < listed, changed);
    }
  }

  void materials() {
    for (const models::Material& material : study_.choices.nut) {
      models::Design changed = screw_;
      changed.nut = material;
      if (material.name != screw_.nut.name) add("nut", screw_.nut.name, material.name, true, changed);
    }
    for (const models::Material& material : study_.choices.screw) {
      models::Design changed = screw_;
      const models::Material* row = find_material_for(study_.tables, material.name, screw_.thread.diameter);
      changed.screw = row ? *row : material;
      if (material.name != screw_.screw.name) add("screw", screw_.screw.name, material.name, true, changed);
    }
  }

  void starts() {
    const int now = screw_.thread.starts;
    std::vector<int> all = study_.choices.starts;
    for (const models::Designation& size : study_.choices.thread.sizes)
      if (size.starts_said && is_this(size) && same(size.pitch, screw_.thread.pitch)) all.push_back(size.starts);
    for (const int beside : {now - 1, now + 1})
      if (beside >= 1) all.push_back(beside);
    for (const int starts : all)
      if (starts != now) add_thread("starts", std::to_string(now), std::to_string(starts), screw_.thread.pitch, starts);
  }

  void pitches() {
    const models::Thread& thread = screw_.thread;
    std::vector<double> all;
    for (const models::Designation& size : study_.choices.thread.sizes)
      if (is_this(size)) all.push_back(size.pitch);
    if (models::size_on_series(thread.form, thread.diameter, thread.pitch))
      for (const models::Size& size : models::series(thread.form))
        if (same(size.diameter, thread.diameter)) all.push_back(size.pitch);
    for (const double pitch : all)
      if (!same(pitch, thread.pitch)) add_thread("pitch", in_mm(thread.pitch), in_mm(pitch), pitch, thread.starts);
  }

  std::vector<OtherChoice> all() && { return std::move(all_); }

private:
  bool is_this(const models::Designation& size) const {
    return size.form == screw_.thread.form && same(size.diameter, screw_.thread.diameter);
  }

  /// One that turns on the same radius; none beside a rolling one, where friction is typed or there is none to lose.
  std::optional<Face> rolling_bearing() const {
    Face bearing;
    bearing.kind = Face::Kind::rolling;
    bearing.mean_radius = screw_.face.friction_radius();
    const bool known = find_face_friction(study_.tables, "rolling", bearing.on, bearing.hard) != nullptr;
    if (screw_.face.kind == Face::Kind::rolling || !by_handbook(study_, models::Input::face_friction) || !known ||
        !(*bearing.mean_radius > 0))
      return std::nullopt;
    return bearing;
  }

  /// Whether the study lists a pitch with so many starts at this diameter.
  bool lists(double pitch, int starts) const {
    const std::vector<int>& counts = study_.choices.starts;
    const bool counted = std::find(counts.begin(), counts.end(), starts) != counts.end();
    const ThreadChoice& choice = study_.choices.thread;
    const auto inside = [](const Range& range, double value) {
      return same(range.from, value) || same(range.to, value) || (range.from < value && value < range.to);
    };
    return std::any_of(choice.sizes.begin(), choice.sizes.end(),
                       [&](const models::Designation& size) {
                         return is_this(size) && same(size.pitch, pitch) &&
                                (size.starts_said ? size.starts == starts : counted);
                       }) ||
           std::any_of(choice.free.begin(), choice.free.end(), [&](const ThreadChoice::Free& free) {
             return free.form == screw_.thread.form && inside(free.diameter, screw_.thread.diameter) &&
                    inside(free.pitch, pitch) && counted;
           });
  }

  void add_thread(const char* change, const std::string& from, const std::string& to, double pitch, int starts) {
    models::Design changed = screw_;
    const bool listed = lists(pitch, starts);
    try {
      changed.thread =
          models::make_thread(screw_.thread.form, screw_.thread.diameter, pitch, starts, screw_.thread.made);
    } catch (const engine::Refusal& refusal) {
      if (listed) all_.push_back({change, from, to, true, std::nullopt, refusal.problems().front().problem});
      return;
    }
    add(change, from, to, listed, changed);
  }

  void add(const char* change, const std::string& from, const std::string& to, bool listed,
           const models::Design& design) {
    const auto again = [&](const OtherChoice& it) { return it.change == change && it.to == to; };
    if (std::string_view(change) != "face" && std::any_of(all_.begin(), all_.end(), again)) return;
    std::string why = unbuildable(study_, design);
    if (why.empty() || listed) all_.push_back({change, from, to, listed, design, std::move(why)});
  }

  const Study& study_;
  const models::Design& screw_;
  std::vector<OtherChoice> all_;
};

}  // namespace

std::vector<OtherChoice> other_choices(const Study& study, const models::Design& screw) {
  Changes changes(study, screw);
  changes.lubrications();
  changes.faces();
  changes.materials();
  changes.starts();
  changes.pitches();
  return std::move(changes).all();
}

}  // namespace studies
