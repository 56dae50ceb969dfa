#pragma once
/// Two judged screws beside each other: what is not the same, what moved, and which difference moved it how far.
#include "engine/pass/loop.hpp"
#include "studies/ask/comparison.hpp"

namespace studies {

/// Both screws and mixtures of them, each difference taken from the one or the other, are put through the same 65 536
/// passes (key of the first study, a stream of its own): the same uniforms belong to the same input and part on all of
/// them. What moved is shared among the differences as `shares` says, and the shares sum to it.
/// Exchanging the two sides of one key turns every sign.
/// @throws Refusal (usage): a clamp beside a lift; (study): a screw that its study cannot build
Comparison compare(const Study& a, const models::Design& screw_a, const Study& b, const models::Design& screw_b,
                   const engine::Running& running);

}  // namespace studies
