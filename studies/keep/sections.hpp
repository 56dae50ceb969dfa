#pragma once
/// The sections of a results file, each written from its part of the answer.
#include "engine/store/writer.hpp"
#include "studies/ask/answer.hpp"

namespace studies {

/// `/candidates`: every screw tried, the pick among them. Nothing where none was.
void write_candidates(engine::StoreWriter& file, const Answer& answer);
/// `/trade_off`: nothing with one aim, or where nothing passes.
void write_trade_off(engine::StoreWriter& file, const Answer& answer);
/// `/passes/rated`: nothing where none are kept.
void write_passes(engine::StoreWriter& file, const Answer& answer);
/// `/summary/rated/…`: nothing without a pick.
void write_summary(engine::StoreWriter& file, const Answer& answer);
/// `/rare/rated`: nothing where every limit with odds is missed often enough to be counted.
void write_rare(engine::StoreWriter& file, const Answer& answer);
/// `/window`: nothing where `size` had nothing to choose or found nothing.
void write_window(engine::StoreWriter& file, const Answer& answer);
/// `/worth`: nothing without a pick, or where no other choice could be made.
void write_worth(engine::StoreWriter& file, const Answer& answer);
/// `/sensitivity/rated`: nothing where nothing scatters.
void write_sensitivity(engine::StoreWriter& file, const Answer& answer);

}  // namespace studies
