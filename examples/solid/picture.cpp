// Example solid: a shaded picture of facets. Those that look at the eye are drawn from the farthest to the nearest.
#include "picture.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <string>

namespace solid {

namespace {

using rackwork::point3;

constexpr double tilt = 0.94;  // of the eye, radians above the plane of the section
constexpr double about = -1.9; // where it stands round the axis

struct seen_facet {
    std::array<rackwork::point<double>, 3> corners;
    double nearness = 0;
    int shade = 0;
};

// Far above rounding and far below what can be seen: facets that are alike by symmetry, and numbers half-way between two that are written,
// come out the same on every machine.
constexpr double small = 1e-7;

std::string number(double value) {
    char text[32];
    const auto end = std::to_chars(text, text + sizeof text, value + small, std::chars_format::fixed, 1);
    return {text, end.ptr};
}

} // namespace

void draw(std::ostream& out, const std::vector<rackwork::facet_solid>& solids, int width) {
    const point3 eye{std::cos(about) * std::cos(tilt), std::sin(about) * std::cos(tilt), std::sin(tilt)};
    const point3 right{-std::sin(about), std::cos(about), 0};
    const point3 up = cross(eye, right);
    const point3 light = (1 / std::sqrt(1.4)) * (eye + 0.5 * right + -0.6 * up + point3{0, 0, 0.2});

    std::vector<seen_facet> seen;
    double low_x = 1e300, high_x = -1e300, low_y = 1e300, high_y = -1e300;
    for (std::size_t body = 0; body < solids.size(); ++body) {
        for (const auto& facet : solids[body].facets) {
            seen_facet s;
            std::array<point3, 3> p;
            for (std::size_t i = 0; i < 3; ++i) {
                p[i] = solids[body].points[facet[i]];
                s.corners[i] = {dot(p[i], right), -dot(p[i], up)};
                low_x = std::min(low_x, s.corners[i].x);
                high_x = std::max(high_x, s.corners[i].x);
                low_y = std::min(low_y, s.corners[i].y);
                high_y = std::max(high_y, s.corners[i].y);
                s.nearness += dot(p[i], eye) / 3;
            }
            const point3 normal = cross(p[1] - p[0], p[2] - p[0]);
            if (dot(normal, eye) <= 0) continue;
            // Nothing is before an end that looks up, unless it stands higher: ends are drawn after the walls below them.
            if (p[0].z == p[1].z && p[1].z == p[2].z) s.nearness = 1e3 * p[0].z + 1e3;
            s.nearness = std::floor(s.nearness / small + 0.5);
            s.shade = static_cast<int>(10 * std::max(0., dot(normal, light)) / length(normal) + small) + (body == 0 ? 0 : 16);
            seen.push_back(s);
        }
    }
    std::stable_sort(seen.begin(), seen.end(),
                     [](const seen_facet& a, const seen_facet& b) { return a.nearness < b.nearness; });

    const double margin = 0.03 * (high_x - low_x);
    const double scale = width / (high_x - low_x + 2 * margin);
    const double height = scale * (high_y - low_y + 2 * margin);
    out << "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" << width << "\" height=\"" << number(height) << "\">\n"
        << "<title>A helical pair in mesh</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n"
        << "<g stroke-width=\"0.5\" stroke-linejoin=\"round\">\n";
    int shade = -1;
    for (const seen_facet& s : seen) {
        if (s.shade != shade) {
            if (shade >= 0) out << "\"/>\n";
            shade = s.shade;
            const int step = shade % 16;
            const std::string colour = "rgb(" + std::to_string((shade < 16 ? 96 : 66) + 14 * step) + "," +
                                       std::to_string(78 + 15 * step) + "," +
                                       std::to_string((shade < 16 ? 60 : 96) + 14 * step) + ")";
            out << "<path fill=\"" << colour << "\" stroke=\"" << colour << "\" d=\"";
        }
        for (std::size_t i = 0; i < 3; ++i) {
            out << (i == 0 ? "M" : "L") << number(scale * (s.corners[i].x - low_x + margin)) << ' '
                << number(scale * (s.corners[i].y - low_y + margin));
        }
        out << 'z';
    }
    out << "\"/>\n</g>\n</svg>\n";
}

} // namespace solid
