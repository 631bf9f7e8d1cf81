// Example cam_path: what of the tool paths is to be seen.
#ifndef CAM_PATH_PICTURE_HPP
#define CAM_PATH_PICTURE_HPP

#include <rackwork/exchange/gcode_path.hpp>

#include <ostream>
#include <string>
#include <vector>

namespace cam_path {

/// A tool path and how it is drawn.
struct drawn_path {
    std::string name;
    std::string colour;
    rackwork::tool_path path;
};

/// An SVG picture: the metal, the paths over it, and one tooth enlarged. `reach` is how far from the axis there is something to see.
void write_picture(std::ostream& out, const std::vector<rackwork::cut_contour>& contours, const std::vector<drawn_path>& paths,
                   double reach, rackwork::point<double> detail, double detail_reach);

} // namespace cam_path

#endif
