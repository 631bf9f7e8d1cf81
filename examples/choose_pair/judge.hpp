// Example choose_pair: what a candidate is worth when its shifts have been split.
#ifndef CHOOSE_PAIR_JUDGE_HPP
#define CHOOSE_PAIR_JUDGE_HPP

#include <rackwork/design/pair_search.hpp>
#include <rackwork/design/profile_shift.hpp>
#include <rackwork/mesh.hpp>

#include <optional>
#include <string>

namespace choose_pair {

/// What the pair is to do, and what its maker holds to be good practice.
struct wish {
    double ratio = 3.07;
    double ratio_tolerance = 0.005;
    double centre_distance = 92;      // mm
    double face_width = 30;           // mm
    double least_contact_ratio = 1.3; // ordinary quality: some room above the 1.2 that a finding asks for
    double least_tip = 0.3;           // modules; steel that is not hardened through at the tips
    double worst_sliding = -2.0;      // specific sliding; beyond it flanks of ordinary finish scuff and wear
    double backlash = 0.05;           // modules, normal; ordinary quality
};

/// A candidate whose shifts are split for equal sliding, and the numbers by which it is judged.
struct judged {
    rackwork::pair_candidate<double> candidate;
    rackwork::shiftable_pair<double> blank;
    rackwork::shift_choice<double> shifts;
    double contact_ratio = 0;
    double least_tip = 0;     // modules
    double worst_sliding = 0; // the worse of both gears
    double root_stress = 0;   // Y_Fa Y_Sa / m_n of the weaker gear [1/mm]: the root stress for a force of 1 on a width of 1
};

/// The limits on shifts that the wish comes down to.
rackwork::finding_limits<double> limits_of(const wish& w);

/// Judges a candidate; nothing where no split of its shifts is permissible.
std::optional<judged> judge(const rackwork::pair_candidate<double>& candidate, const wish& w);

/// Is its module of ISO 54's series I, for which every shop has tools?
bool is_preferred(const judged& j);

/// Why a candidate is not taken: what it does wrong, in a few words; empty if nothing speaks against it.
std::string objection(const judged& j, const wish& w);

/// The finished pair at the wished centre distance, its teeth thinned for the backlash, half each.
rackwork::mesh<double> finished(const judged& j, const wish& w);

} // namespace choose_pair

#endif
