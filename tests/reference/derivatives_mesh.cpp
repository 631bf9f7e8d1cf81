// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Derivatives of a mesh with respect to every input of its two gears and to the centre distance.
#include "compare_pair.hpp"
#include "differentiate.hpp"

namespace {

using independent::real;
using reference::differentiable;

/// What the gears share, then shift, tip alteration, allowance and face width of either, then the centre distance.
constexpr std::size_t count = 15;
constexpr std::size_t quantities = 11;
using inputs = std::array<differentiable, count>;
using exact_inputs = std::array<real, count>;

template <class T>
std::array<T, reference::gear_inputs> gear_part(const std::array<T, count>& x, std::size_t own, bool other_hand) {
    return {x[0], other_hand ? T(-x[1]) : x[1], x[2], x[3], x[4], x[5], x[own], x[own + 1], x[own + 2], x[own + 3], T(0)};
}

void sweep(std::uint64_t seed, int pairs) {
    support::random_source random(seed);
    reference::derivative_ledger worst(1e-14);
    reference::tally possible;
    for (int i = 0; i < pairs; ++i) {
        reference::random_pair drawn = reference::make_random_pair(random);
        rackwork::gear_parameters<double>& a = drawn.pinion;
        rackwork::gear_parameters<double>& b = drawn.wheel;
        a.rack.root_fillet_radius *= 0.9;
        b.rack = a.rack;
        const double wider = random.uniform(0.0, 0.3);
        if (random.coin()) a.teeth = random.integer(6, 25);
        const std::string where = reference::description(a) + " | " + reference::description(b);
        worst.at(where);
        INFO(where);
        const auto possible_mesh = [&] {
            if (rackwork::check(a) || rackwork::check(b)) return false;
            const independent::gear pinion(reference::exact_numbers(a));
            const independent::gear wheel(reference::exact_numbers(b));
            return reference::exact_proportions(pinion, wheel, real(real(a.profile_shift) + b.profile_shift)).possible() &&
                   reference::leaves_a_flank(pinion, independent::root_of(pinion)) &&
                   reference::leaves_a_flank(wheel, independent::root_of(wheel));
        }();
        possible.count(possible_mesh);
        if (!possible_mesh) continue;
        const double m = a.normal_module;
        const rackwork::mesh<double> nominal{rackwork::gear<double>(a), rackwork::gear<double>(b)};
        const double distance = nominal.centre_distance() + wider * m;
        const reference::named_inputs<count> in{
            .value = {m, a.helix_angle.rad(), a.rack.pressure_angle.rad(), a.rack.addendum, a.rack.dedendum, a.rack.root_fillet_radius,
                      a.profile_shift, a.tip_alteration, a.thickness_allowance, a.face_width,
                      b.profile_shift, b.tip_alteration, b.thickness_allowance, b.face_width, distance},
            .name = {"normal module", "helix angle", "pressure angle", "addendum", "dedendum", "root fillet radius",
                     "pinion's shift", "pinion's tip alteration", "pinion's allowance", "pinion's face width",
                     "wheel's shift", "wheel's tip alteration", "wheel's allowance", "wheel's face width", "centre distance"},
            // A spur pair's overlap has a bend at the helix angle 0.
            .size = {m, a.helix_angle.rad() == 0 ? 0.0 : 1.0, 1, 1, 1, 1, 1, 1, m, m, 1, 1, m, m, distance}};

        using M = rackwork::mesh<differentiable>;
        using E = independent::mesh;
        const double t = std::tan(nominal.working_pressure_angle().rad());
        const double flat = 1 + 1 / (t * t); // errors of the centre distance in the working pressure angle
        const reference::along_the_line line(E{independent::gear(reference::exact_numbers(a)),
                                               independent::gear(reference::exact_numbers(b))});
        const double steep = static_cast<double>(real(line.all() / distance));
        const double pitch = nominal.pinion().transverse_base_pitch();
        // A gap so wide that the teeth never touch on both flanks leaves nothing to be differentiated.
        const bool closes = nominal.circumferential_backlash() < 0.1 * m;

        const auto of_library = [&](const M& x) {
            return std::array<differentiable, quantities>{
                x.centre_distance(), x.working_pressure_angle().rad(), x.circumferential_backlash(), x.normal_backlash(),
                closes ? x.radial_backlash() : differentiable(0), x.angular_backlash().pinion.rad(), x.bottom_clearance().pinion,
                x.active_root_diameter().pinion, x.active_tip_diameter().wheel, x.transverse_contact_ratio(), x.overlap_contact_ratio()};
        };
        const auto independently = [&](const E& x) {
            const real per_tooth = real(2 * x.centre_distance / (x.pinion.numbers.teeth + x.wheel.numbers.teeth));
            const real w1 = x.pinion.numbers.face_width;
            const real w2 = x.wheel.numbers.face_width;
            const real full_turn = real(2 * independent::pi());
            return std::array<real, quantities>{
                x.centre_distance,
                x.working_pressure_angle(),
                x.circumferential_backlash(),
                x.normal_backlash(),
                closes ? real(x.centre_distance - x.double_flank_centre_distance()) : real(0),
                real(2 * x.circumferential_backlash() / (per_tooth * x.pinion.numbers.teeth)),
                real(x.centre_distance - x.pinion.effective_tip_radius() - x.wheel.generated_root_radius()),
                real(2 * x.pinion_active_root()),
                real(2 * x.wheel_active_tip()),
                real(x.length_of_path() / (full_turn * x.pinion.base_radius / x.pinion.numbers.teeth)),
                real((w1 < w2 ? w1 : w2) * abs(x.pinion.twist()) * x.pinion.numbers.teeth / full_turn)};
        };
        const auto subjects = [&](const std::string& where_it_stands) {
            std::array<reference::derivative_ledger::subject, quantities> all{{{"centre distance", distance, flat},
                                                                               {"working pressure angle", 1, flat},
                                                                               {"circumferential backlash", distance, flat},
                                                                               {"normal backlash", distance, flat},
                                                                               {"radial backlash", distance, flat},
                                                                               {"angular backlash", distance / (a.teeth * m), flat},
                                                                               {"bottom clearance", distance, flat},
                                                                               {"active root diameter", distance, steep},
                                                                               {"active tip diameter", distance, steep},
                                                                               {"transverse contact ratio", distance / pitch, steep},
                                                                               {"overlap ratio", a.face_width / m}}};
            for (auto& s : all) s.name += where_it_stands;
            return all;
        };
        const auto pinion = [&](const auto& x) { return gear_part(x, 6, false); };
        const auto wheel = [&](const auto& x) { return gear_part(x, 10, true); };
        using reference::exact_gear_from;
        using reference::gear_from;
        worst.record(
            subjects(" at the nominal centre distance"), in,
            [&](const inputs& x) { return of_library(M(gear_from(pinion(x), a.teeth), gear_from(wheel(x), b.teeth))); },
            [&](const exact_inputs& x) {
                return independently(E(exact_gear_from(pinion(x), a.teeth), exact_gear_from(wheel(x), b.teeth)));
            });
        worst.record(
            subjects(" at a given centre distance"), in,
            [&](const inputs& x) { return of_library(M(gear_from(pinion(x), a.teeth), gear_from(wheel(x), b.teeth), x[14])); },
            [&](const exact_inputs& x) {
                return independently(E(exact_gear_from(pinion(x), a.teeth), exact_gear_from(wheel(x), b.teeth), x[14]));
            });
    }
    CHECK(possible.share() > 0.7);
    worst.check();
}

} // namespace

TEST_CASE("a mesh changes with its gears' inputs as the independent computation says") { sweep(130, 40); }
