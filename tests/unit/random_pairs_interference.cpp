// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Metal in the way of metal in pairs of every kind: finite margins that agree with the findings, or a refusal with a sentence.
#include "random_kinds.hpp"

#include <rackwork/findings.hpp>
#include <rackwork/interference_findings.hpp>
#include <rackwork/mesh.hpp>
#include <rackwork/rack_mesh.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace {

using namespace random_kinds;
using rackwork::gear;
using rackwork::mesh;

/// Metal in the way of metal: passages, assembly, trimming, and the findings that come of them.
void look_at_interference(const mesh<double>& m, faults& found) {
    const double size = std::max(m.pinion().tip_diameter(), m.wheel().root_diameter());
    const double rounding = std::ldexp(std::numeric_limits<double>::epsilon(), 14) * size;
    const auto look_at_passage = [&](const rackwork::tip_passage<double>& p, const gear<double>& g) {
        if (!p.reaches) return;
        found.finite(p.clearance, "the clearance of a passing tip");
        const double low = std::min({g.base_diameter(), g.generated_root_diameter(), g.root_diameter(), g.effective_tip_diameter()});
        const double high = std::max({g.root_diameter(), g.generated_root_diameter(), g.effective_tip_diameter()});
        found.expect(p.diameter > 0.9 * low && p.diameter < 1.1 * high, "a tip passes where there is no tooth");
    };
    const auto at_fillets = passage_at_fillets(m);
    const auto at_flanks = passage_at_flanks(m);
    look_at_passage(at_fillets.pinion, m.pinion());
    look_at_passage(at_fillets.wheel, m.wheel());
    look_at_passage(at_flanks.pinion, m.pinion());
    look_at_passage(at_flanks.wheel, m.wheel());
    const auto list = interference_findings(m);
    look_at_findings(list, found);
    // A finding stands for a negative margin, and every negative margin has its finding; but teeth that overlap at their working circles are
    // not looked at.
    const bool looked_at = m.circumferential_backlash() >= -rounding;
    const auto cuts = [&](const rackwork::tip_passage<double>& p) { return p.reaches && p.clearance < -rounding; };
    const auto agree = [&](bool margin, bool finding, const char* what) { found.expect((looked_at && margin) == finding, what); };
    using rackwork::finding_code;
    using rackwork::finding_subject;
    agree(cuts(at_fillets.pinion), list.has(finding_code::tip_cuts_fillet, finding_subject::pinion),
          "the pinion's fillet and its finding disagree");
    agree(cuts(at_fillets.wheel), list.has(finding_code::tip_cuts_fillet, finding_subject::wheel),
          "the wheel's fillet and its finding disagree");
    agree(m.is_internal() && (cuts(at_flanks.pinion) || cuts(at_flanks.wheel)), list.has(finding_code::tip_interference),
          "the tips and their finding disagree");
    if (m.is_internal()) {
        const double room = radial_assembly_clearance(m);
        found.finite(room, "the room for radial assembly");
        agree(room < 0, list.has(finding_code::axial_assembly_only), "the room for assembly and its finding disagree");
    } else {
        found.expect(!list.has(finding_code::axial_assembly_only), "an external pair wants to be put together along the axis");
    }
    for (const auto& f : list) found.expect(f.value < f.limit, "a finding without penetration");
}

} // namespace

TEST_CASE("in random pairs of both kinds tips pass and pinions go in with finite margins that agree with the findings, or are refused") {
    random_source random{326};
    tally counted;
    for (int i = 0; i < 1500; ++i) {
        const bool internal = i % 2 == 0;
        auto a = random_gear(random, gear_kind::external);
        auto b = a;
        const auto other = random_gear(random, internal ? gear_kind::internal : gear_kind::external);
        b.kind = other.kind;
        b.teeth = internal ? a.teeth + random.integer(1, random.coin() ? 12 : 100) : other.teeth;
        b.profile_shift = random.coin() ? other.profile_shift : -a.profile_shift;
        b.tip_alteration = other.tip_alteration;
        b.tip_chamfer = other.tip_chamfer * a.normal_module / other.normal_module;
        b.tip_rounding = b.tip_chamfer > 0 ? 0 : a.tip_rounding;
        b.thickness_allowance = -std::fabs(a.thickness_allowance);
        if (!internal) b.helix_angle = -a.helix_angle;
        const double moved = (internal ? -1 : 1) * random.uniform(-0.05, 0.3) * a.normal_module;
        const auto tools = rackwork::for_both<cutter<double>>{random_tool(random, a), random_tool(random, b)};
        judge(described(a) + " | " + described(b), counted, [&](faults& found) {
            const mesh<double> nominal{gear<double>(a), gear<double>(b)};
            look_at_interference(nominal, found);
            const double distance = nominal.centre_distance() + moved;
            look_at_interference(mesh<double>(nominal.pinion(), nominal.wheel(), distance), found);
            if (i % 3 == 0) look_at_interference(mesh<double>(nominal.pinion(), nominal.wheel(), distance, tools), found);
        });
    }
    CHECK(counted.right > 500);
    report(counted);
}

TEST_CASE("random pinions on random racks have finite findings, or are refused") {
    random_source random{327};
    tally counted;
    for (int i = 0; i < 2000; ++i) {
        const auto p = random_gear(random, gear_kind::external);
        rackwork::rack_parameters<double> rack{.profile = p.rack, .thickness_allowance = p.thickness_allowance};
        rack.datum_height = random.uniform(0, 5) * p.normal_module;
        rack.face_width = random.coin() ? 0 : 5 * p.normal_module;
        const double moved = random.uniform(-0.1, 0.4) * p.normal_module;
        judge(described(p), counted, [&](faults& found) {
            const rackwork::rack_mesh<double> nominal(gear<double>(p), rack);
            look_at_findings(findings(nominal), found);
            look_at_findings(findings(rackwork::rack_mesh<double>(nominal.pinion(), rack, nominal.pinion_height() + moved)), found);
        });
    }
    CHECK(counted.right > 1000);
    report(counted);
}
