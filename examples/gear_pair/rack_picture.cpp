// Example gear_pair: a picture of a pinion on a toothed rack.
#include "rack_picture.hpp"

#include "table.hpp"

#include <rackwork/core/point.hpp>
#include <rackwork/exchange/arc_polyline.hpp>
#include <rackwork/exchange/placement.hpp>
#include <rackwork/form/outline.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <ostream>
#include <string>
#include <vector>

namespace gear_pair {

namespace {

using rackwork::point;

/// The rack's left half of a tooth space and what follows, as points from the middle of one tip land to the next. x is square to the
/// pinion's axis, y counts from the datum line.
std::vector<point<double>> rack_pitch(const rackwork::rack_mesh<double>& m, double tolerance) {
    const rackwork::gear<double>& pinion = m.pinion();
    const rackwork::basic_rack<double>& profile = m.rack().profile;
    const double module = pinion.normal_module();
    const double alpha = pinion.normal_pressure_angle().rad();
    const double half_pitch = pinion.normal_pitch() / 2;
    const double half_tooth = (half_pitch + m.rack().thickness_allowance) / 2;
    const double tip = module * profile.addendum;
    // A tool that thins the teeth also goes deeper.
    const double root = m.rack().thickness_allowance / (2 * std::tan(alpha)) - module * profile.dedendum;
    const double radius = module * profile.root_fillet_radius;

    // In the normal section, where the fillet is an arc, from the tip down to the root land.
    std::vector<point<double>> half{{half_tooth - tip * std::tan(alpha), tip}};
    const double joint = root + radius * (1 - std::sin(alpha)); // where the flank passes into the fillet
    const point<double> centre{half_tooth - joint * std::tan(alpha) + radius * std::cos(alpha), root + radius};
    const double turn = rackwork::pi<double>() / 2 - alpha;
    const int chords = radius > tolerance ? 1 + static_cast<int>(turn / std::sqrt(8 * tolerance / radius)) : 1;
    for (int i = 0; i <= chords; ++i) {
        const double at = alpha + turn * i / chords;
        half.push_back({centre.x - radius * std::cos(at), centre.y - radius * std::sin(at)});
    }

    std::vector<point<double>> pitch = half;
    for (std::size_t i = half.size(); i-- > 0;) pitch.push_back({2 * half_pitch - half[i].x, half[i].y});
    // Seen along the pinion's axis a helical rack's lengths are greater.
    for (point<double>& p : pitch) p.x /= pinion.cosine_of_helix_angle();
    return pitch;
}

class picture {
public:
    picture(std::ostream& out, int decimals) : out_(out), decimals_(decimals) {}

    std::string length(double value) const { return rounded(value, decimals_); }
    std::string position(const point<double>& p) const { return length(p.x) + ' ' + length(p.y); }

    void gear(const rackwork::arc_polyline<double>& curve, const std::string& fill) {
        out_ << "<path class=\"pinion\" fill=\"" << fill << "\" d=\"M" << position(curve.vertices.front().position);
        for (std::size_t i = 0; i < curve.vertices.size(); ++i) {
            const rackwork::arc_vertex<double>& v = curve.vertices[i];
            const point<double>& next = curve.vertices[(i + 1) % curve.vertices.size()].position;
            if (v.bulge == 0) {
                out_ << "L" << position(next) << '\n';
                continue;
            }
            const std::string radius = length(rackwork::arc_radius(v.position, next, v.bulge));
            out_ << "A" << radius << ' ' << radius << (v.bulge > 0 ? " 0 0 1 " : " 0 0 0 ") << position(next) << '\n';
        }
        out_ << "Z\"/>\n";
    }

    void polygon(const std::vector<point<double>>& corners, const std::string& fill) {
        out_ << "<path class=\"rack\" fill=\"" << fill << "\" d=\"M";
        for (std::size_t i = 0; i < corners.size(); ++i) out_ << (i == 0 ? "" : "L") << position(corners[i]) << '\n';
        out_ << "Z\"/>\n";
    }

private:
    std::ostream& out_;
    int decimals_;
};

} // namespace

void write_rack_picture(std::ostream& out, const rackwork::rack_mesh<double>& m, const options& o) {
    const rackwork::gear<double>& pinion = m.pinion();
    const double module = pinion.normal_module();
    const double pitch = pinion.transverse_pitch();
    const double datum = -m.distance_to_datum_line();
    const double pitch_radius = pinion.reference_diameter() / 2;
    const double tip_radius = pinion.effective_tip_diameter() / 2;
    const int pitches = 1 + static_cast<int>(std::ceil(tip_radius / pitch)); // on either side
    const double end = pitches * pitch;
    const double depth = module * m.rack().profile.dedendum;
    const double back = datum - std::fmax(m.rack().datum_height, depth + 2 * module);

    // Spaces lie at whole pitches, so that the outline begins and ends on the middle of a tip land half a pitch away from one.
    const std::vector<point<double>> one = rack_pitch(m, o.tolerance);
    std::vector<point<double>> rack{{-end - pitch / 2, datum + one.front().y}};
    for (int i = -pitches; i <= pitches; ++i) {
        for (const point<double>& p : one) rack.push_back({p.x + (i - 0.5) * pitch, datum + p.y});
    }
    rack.push_back({end + pitch / 2, datum + one.front().y});
    rack.push_back({end + pitch / 2, back});
    rack.push_back({-end - pitch / 2, back});

    const rackwork::placement<double> downward{.centre = {}, .turn = rackwork::deg(-90.)};
    const auto outline = placed(rackwork::arc_polyline_of(rackwork::outline_of(pinion, m.pinion_root().tool()), o.tolerance), downward);

    const double left = -std::fmax(end + pitch / 2, tip_radius) - module;
    const double top = tip_radius + module;
    const double width = -2 * left;
    const double height = top - back + module;
    const double line = std::fmin(width / 500, module / 12);
    const picture draw(out, std::max(0, static_cast<int>(std::ceil(-std::log10(std::fmin(o.tolerance, module / 1000) / 100)))));
    const auto size = [&](double value) { return draw.length(value); };
    const std::string unit = o.unit();
    out << "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"" << size(width)
        << unit << "\" height=\"" << size(height) << unit << "\" viewBox=\"" << size(left) << ' ' << size(-top) << ' ' << size(width) << ' '
        << size(height) << "\" role=\"img\">\n<title>Pinion of " << rounded(pinion.teeth(), 0) << " teeth on a toothed rack</title>\n<desc>"
        << "Transverse section, to scale. The dash-dotted lines are the reference circle and the pitch line that rolls on it; the thin "
           "line between two dots is the path of contact when the pinion drives counter-clockwise.</desc>\n";
    out << "<rect fill=\"#ffffff\" x=\"" << size(left) << "\" y=\"" << size(-top) << "\" width=\"" << size(width) << "\" height=\""
        << size(height) << "\"/>\n<g transform=\"scale(1 -1)\" stroke=\"#202020\" stroke-linejoin=\"round\" stroke-width=\"" << size(line)
        << "\">\n";
    picture shapes = draw;
    shapes.polygon(rack, "#e4e4e4");
    shapes.gear(outline, "#bcbcbc");

    // The line of action touches the base circle at `touch` and runs through the pitch point.
    const double base_radius = pinion.base_diameter() / 2;
    const double alpha = m.working_pressure_angle().rad();
    const point<double> along{std::cos(alpha), -std::sin(alpha)};
    const point<double> touch{-base_radius * std::sin(alpha), -base_radius * std::cos(alpha)};
    const point<double> begin = touch + m.pinion_roll_at_start_of_contact() * along;
    const point<double> finish = begin + m.length_of_path_of_contact() * along;
    out << "<g fill=\"none\" stroke-width=\"" << size(0.6 * line) << "\">\n<g stroke-dasharray=\"" << size(13 * line) << ' '
        << size(3 * line) << ' ' << size(2 * line) << ' ' << size(3 * line) << "\">\n";
    out << "<circle class=\"reference_circle\" cx=\"0\" cy=\"0\" r=\"" << size(pitch_radius) << "\"/>\n<path class=\"pitch_line\" d=\"M"
        << draw.position({left + module / 2, -pitch_radius}) << 'H' << size(-left - module / 2) << "\"/>\n</g>\n";
    out << "<path class=\"centre\" d=\"M" << draw.position({-module, 0}) << 'H' << size(module) << 'M' << draw.position({0, -module})
        << 'V' << size(module) << "\"/>\n";
    if (m.length_of_path_of_contact() > 0) {
        out << "<g class=\"path_of_contact\"><path d=\"M" << draw.position(begin) << 'L' << draw.position(finish) << "\"/>";
        for (const point<double>& p : {begin, finish}) {
            out << "<circle fill=\"#ffffff\" cx=\"" << size(p.x) << "\" cy=\"" << size(p.y) << "\" r=\"" << size(1.5 * line) << "\"/>";
        }
        out << "</g>\n";
    }
    out << "</g>\n</g>\n</svg>\n";
}

} // namespace gear_pair
