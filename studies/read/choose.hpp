#pragma once
/// [choose]: what may be chosen.
#include "studies/read/page.hpp"

namespace studies::read {

/// Fills `page.study.choices`; the study's tables must have been read.
void read_choose(Page& page);

/// `choose.thread` and `choose.starts`.
void read_thread(Page& page, const View& choose);
/// `choose.nut_length` and `choose.nut_outside`; the threads must have been read.
void read_nut(Page& page, const View& choose);
/// `choose.face`.
void read_face(Page& page, const View& choose);

/// The values typed as one or as a list of them.
std::vector<const engine::Node*> one_or_list(const engine::Node& node);
/// Refuses a value that stands twice in a list; values are compared as typed.
void refuse_twice(Page& page, const engine::Node& node, const std::string& path);
/// The smallest and largest diameter that may be chosen [m]; {0, 0} where no thread could be read.
Range diameters(const ThreadChoice& choice);

}  // namespace studies::read
