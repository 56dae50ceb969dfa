#include "studies/read/short_study.hpp"

namespace studies {

const std::vector<ShortOption>& short_options() {
  static const std::vector<ShortOption> all = {
      {"--force", "duty.force", "", "", "", "force wanted: judged at nominal", "FORCE"},
      {"--load", "duty.force", "", "", "", "load to lift: the torque is asked for", "FORCE"},
      {"--torque", "duty.torque", "", "", "", "torque on the screw", "TORQUE"},
      {"--hand-force", "duty.hand_force", "", "", "", "force of each hand on the handle", "FORCE"},
      {"--handle", "duty.handle", "", "", "", "radius of the handle", "LENGTH"},
      {"--hands", "duty.hands", "", "1", "one hand", "how many hands pull", "N"},
      {"--travel", "duty.travel", "", "", "", "stroke of the screw; the column follows from it", "LENGTH"},
      {"--tension", "duty.screw_in", "tension", "compression", "the safe choice", "the screw hangs or draws", ""},

      {"--thread", "choose.thread", "", "", "",
       "designation: \"Tr 40x7\", \"1-1/2-4 Acme\", \"M24x3\", \"square 32x8 P4\"", "THREAD"},
      {"--starts", "choose.starts", "", "", "", "threads that begin side by side, where the designation does not say",
       "N"},
      {"--nut-length", "choose.nut_length", "", "1.5 d", "common practice", "length in the nut: \"60 mm\" or \"1.5 d\"",
       "LENGTH"},
      {"--lubrication",
       "choose.lubrication",
       "",
       "oil",
       "a screw looked after",
       "dry, oil or grease",
       "WORD",
       {"dry", "oil", "grease"}},
      {"--screw", "choose.screw", "", "steel 1045 hot rolled", "a usual bar", "material of the screw", "MATERIAL"},
      {"--nut", "choose.nut", "", "bearing bronze C93200", "the usual nut", "material of the nut", "MATERIAL"},

      {"--rolling", "choose.face.kind", "rolling", "pad", "a collar that slides",
       "the thrust face is a rolling bearing", ""},
      {"--face-radius", "choose.face.mean_radius", "", "", "", "friction radius of the thrust face", "LENGTH"},
      {"--face-on",
       "choose.face.on",
       "",
       "cast iron",
       "the usual seat",
       "what a sliding face runs on: bronze or cast iron",
       "MATERIAL",
       {"bronze", "cast iron"}},

      {"--friction", "scatter.thread_friction", "", "handbook", "the range of practice",
       "friction of the thread, held fixed", "VALUE"},
      {"--face-friction", "scatter.face_friction", "", "handbook", "the range of practice",
       "friction of the thrust face, held fixed", "VALUE"},

      {"--passes", "passes.count", "", "262144", "odds to a few in ten thousand", "Monte Carlo passes", "N"},
      {"--key", "passes.key", "", "1", "any key will do", "random key", "N"},
  };
  return all;
}

}  // namespace studies
