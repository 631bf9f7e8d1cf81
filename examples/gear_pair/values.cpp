// Example gear_pair: every number of a pair under its name.
#include "values.hpp"

#include <rackwork/form/outline.hpp>
#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>

#include <functional>

namespace gear_pair {

const named_value* sheet::find(const std::string& name) const {
    for (const named_value& v : values) {
        if (v.name == name) return &v;
    }
    return nullptr;
}

namespace {

class sheet_maker {
public:
    sheet_maker(sheet& target, bool inch) : target_(target), length_(inch ? "in" : "mm") {}

    void start(const std::string& owner) { owner_ = owner; }
    void number(const std::string& name, double value) { add(name, value, "1"); }
    void size(const std::string& name, double value) { add(name, value, length_); }
    void area(const std::string& name, double value) { add(name, value, length_ + "^2"); }
    void turn(const std::string& name, const rackwork::angle<double>& value) { add(name, value.deg(), "deg"); }

    /// Makes the values of a measurement; where it is impossible the reason becomes a remark.
    void measurement(const std::string& what, const std::function<void()>& make) {
        const std::size_t before = target_.values.size();
        try {
            make();
        } catch (const rackwork::geometry_error& error) {
            target_.values.resize(before);
            target_.remarks.push_back("No " + what + " of the " + owner_ + ": " + error.what() + ".");
        }
    }

private:
    void add(const std::string& name, double value, const std::string& unit) {
        target_.values.push_back({owner_ + "." + name, value, unit});
    }

    sheet& target_;
    std::string length_;
    std::string owner_;
};

void add_measurements(sheet_maker& to, const rackwork::gear<double>& g, const gear_options& asked, bool inch) {
    to.measurement("span measurement", [&] {
        const int k = asked.teeth_spanned ? *asked.teeth_spanned : rackwork::recommended_teeth_spanned(g);
        to.number("teeth_spanned", k);
        to.size("span_measurement", rackwork::span_measurement(g, k));
        to.size("span_contact_diameter", rackwork::span_contact_diameter(g, k));
        to.size("span_face_width", rackwork::span_face_width(g, k));
    });
    double pin = asked.pin_diameter.value_or(0);
    to.measurement("ideal pin diameter", [&] {
        const double ideal = rackwork::ideal_pin_diameter(g);
        if (!asked.pin_diameter) {
            pin = inch ? rackwork::wire_table_pin_factor * g.normal_module() : rackwork::nearest_preferred_pin_diameter(ideal);
        }
        to.size("ideal_pin_diameter", ideal);
    });
    to.measurement("dimension over balls", [&] {
        const rackwork::pin_position<double> position = rackwork::position_of_pin(g, pin);
        to.size("pin_diameter", pin);
        to.size("pin_centre_diameter", position.centre_diameter);
        to.size("pin_contact_diameter", position.contact_diameter);
        to.size("dimension_over_balls", rackwork::dimension_over_balls(g, pin));
    });
    to.measurement("dimension over pins", [&] { to.size("dimension_over_pins", rackwork::dimension_over_pins(g, pin)); });
    to.measurement("chord", [&] {
        const rackwork::chord<double> chord = rackwork::chord_at(g, g.reference_diameter());
        to.size("chordal_thickness", chord.thickness);
        to.size("chordal_height", chord.height);
    });
    const rackwork::chord<double> constant = rackwork::constant_chord(g);
    to.size("constant_chord_thickness", constant.thickness);
    to.size("constant_chord_height", constant.height);
}

void add_gear(sheet_maker& to, const rackwork::gear<double>& g) {
    to.number("teeth", g.teeth());
    to.size("normal_module", g.normal_module());
    to.size("transverse_module", g.transverse_module());
    to.turn("normal_pressure_angle", g.normal_pressure_angle());
    to.turn("transverse_pressure_angle", g.transverse_pressure_angle());
    to.turn("helix_angle", g.helix_angle());
    to.turn("base_helix_angle", g.base_helix_angle());
    to.number("profile_shift", g.profile_shift());
    to.number("generating_profile_shift", g.generating_profile_shift());
    to.number("tip_alteration", g.parameters().tip_alteration);
    to.size("thickness_allowance", g.parameters().thickness_allowance);
    to.size("reference_diameter", g.reference_diameter());
    to.size("base_diameter", g.base_diameter());
    to.size("tip_diameter", g.tip_diameter());
    to.size("tip_form_diameter", g.tip_form_diameter());
    to.size("root_diameter", g.root_diameter());
    to.size("generated_root_diameter", g.generated_root_diameter());
    to.size("pointed_tip_diameter", g.pointed_tip_diameter());
    to.size("addendum", g.addendum());
    to.size("dedendum", g.dedendum());
    to.size("tooth_depth", g.tooth_depth());
    to.size("normal_pitch", g.normal_pitch());
    to.size("transverse_pitch", g.transverse_pitch());
    to.size("normal_base_pitch", g.normal_base_pitch());
    to.size("transverse_base_pitch", g.transverse_base_pitch());
    if (g.helix_angle().rad() != 0) {
        to.size("axial_pitch", g.axial_pitch());
        to.size("lead", g.lead());
    }
    to.size("normal_tooth_thickness", g.normal_tooth_thickness());
    to.size("transverse_tooth_thickness", g.transverse_tooth_thickness());
    to.size("tip_thickness", g.tip_thickness());
    to.size("normal_tip_thickness", g.normal_tooth_thickness(g.tip_diameter()));
    to.area("transverse_section_area", rackwork::outline_of(g).area());
}

} // namespace

sheet make_sheet(const rackwork::mesh<double>& m, const options& o) {
    sheet result;
    sheet_maker to(result, o.inch);

    const auto both = [&](auto&& add) {
        to.start("pinion");
        add(m.pinion(), o.pinion, [](const auto& of_both) { return of_both.pinion; });
        to.start("wheel");
        add(m.wheel(), o.wheel, [](const auto& of_both) { return of_both.wheel; });
    };
    both([&](const rackwork::gear<double>& g, const gear_options& asked, const auto& of) {
        add_gear(to, g);
        to.size("root_form_diameter", of(m.root_form_diameter()));
        to.size("working_diameter", of(m.working_diameter()));
        to.size("active_tip_diameter", of(m.active_tip_diameter()));
        to.size("active_root_diameter", of(m.active_root_diameter()));
        to.size("bottom_clearance", of(m.bottom_clearance()));
        to.turn("angular_backlash", of(m.angular_backlash()));
        add_measurements(to, g, asked, o.inch);
    });

    to.start("pair");
    to.size("centre_distance", m.centre_distance());
    to.size("reference_centre_distance", m.reference_centre_distance());
    to.number("gear_ratio", m.gear_ratio());
    to.number("profile_shift_sum", m.pinion().profile_shift() + m.wheel().profile_shift());
    to.turn("working_pressure_angle", m.working_pressure_angle());
    to.size("length_of_path_of_contact", m.length_of_path_of_contact());
    to.number("transverse_contact_ratio", m.transverse_contact_ratio());
    to.measurement("overlap ratio", [&] {
        to.number("overlap_contact_ratio", m.overlap_contact_ratio());
        to.number("total_contact_ratio", m.total_contact_ratio());
    });
    to.size("circumferential_backlash", m.circumferential_backlash());
    to.size("normal_backlash", m.normal_backlash());
    to.measurement("radial backlash", [&] {
        to.size("radial_backlash", m.radial_backlash());
        to.size("double_flank_centre_distance", m.double_flank_centre_distance());
    });
    to.size("approximate_radial_backlash", m.approximate_radial_backlash());
    return result;
}

} // namespace gear_pair
