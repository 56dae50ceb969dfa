#include "studies/read/one_screw.hpp"

#include <fmt/format.h>

#include "engine/base/format.hpp"

namespace studies::read {

std::optional<models::Thread> one_thread(const Choices& c) {
  try {
    if (c.thread.sizes.size() == 1 && c.thread.free.empty()) {
      const models::Designation& size = c.thread.sizes.front();
      if (!size.starts_said && c.starts.size() != 1) return std::nullopt;
      return models::make_thread(size.form, size.diameter, size.pitch,
                                 size.starts_said ? size.starts : c.starts.front(), c.made);
    }
    if (c.thread.sizes.empty() && c.thread.free.size() == 1 && c.starts.size() == 1) {
      const ThreadChoice::Free& free = c.thread.free.front();
      if (free.diameter.fixed() && free.pitch.fixed())
        return models::make_thread(free.form, free.diameter.from, free.pitch.from, c.starts.front(), c.made);
    }
  } catch (const engine::Refusal&) {
  }
  return std::nullopt;
}

void check_one_screw(Page& page) {
  const Choices& c = page.study.choices;
  const View choose = page.table(page.top(), "choose");
  const std::optional<models::Thread> thread = one_thread(c);
  if (!thread) return;
  if (c.nut_length.values.size() == 1 && !c.nut_length.range) {
    const double turns = c.nut_length.values.front().of(thread->diameter) / thread->pitch;
    const engine::Node& typed = *choose.find("nut_length");
    if (turns < 1 - 1e-9)
      page.refuse(typed.place,
                  fmt::format("nut_length = {} gives {} engaged turns", as_typed(typed), engine::three_figures(turns)),
                  "The model needs at least 1", fmt::format("use {} mm or more", engine::plain(thread->pitch * 1e3)));
  }
  const bool own_yield = page.study.scatter[static_cast<std::size_t>(models::Input::screw_yield)].base.has_value();
  for (const models::Material& screw : c.screw)
    if (!own_yield && !find_material_for(page.study.tables, screw.name, thread->diameter))
      page.refuse(choose.find("screw")->place,
                  fmt::format("the strength of {} is not known at {} mm", screw.name,
                              engine::three_figures(thread->diameter * 1e3)),
                  fmt::format("Its row holds up to {} mm", engine::three_figures(screw.up_to * 1e3)),
                  "type screw_yield in [scatter], or choose another material");
}

void check_rate(Page& page) {
  const Choices& c = page.study.choices;
  const View choose = page.table(page.top(), "choose");
  const auto refuse = [&](const char* key, bool many) {
    if (many && choose.has(key))
      page.refuse(choose.find(key)->place,
                  fmt::format("choose.{} = {} is more than one value", key, as_typed(*choose.find(key))),
                  "'rate' judges one screw", "write one value, or use 'size'");
  };
  const bool band =
      !c.thread.free.empty() && !(c.thread.free.front().diameter.fixed() && c.thread.free.front().pitch.fixed());
  refuse("thread", c.thread.sizes.size() > 1 || band);
  refuse("starts", c.starts.size() > 1);
  refuse("nut_length", c.nut_length.values.size() > 1 || c.nut_length.range);
  refuse("lubrication", c.lubrication.size() > 1);
  refuse("screw", c.screw.size() > 1);
  refuse("nut", c.nut.size() > 1);
  refuse("face", c.face.size() > 1);
}

void check_size(Page& page) {
  const View must = page.table(page.top(), "must");
  if (page.study.limits.empty() && (!must.node || must.node->entries.empty()) && !page.spoiled(must))
    page.refuse(must.node ? must.node->place : engine::Place{}, "nothing must hold",
                "The lightest screw that need not do anything is none",
                "write limits into [must], or force = \"…\" into [duty]");
}

}  // namespace studies::read
