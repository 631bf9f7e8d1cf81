// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// For programs that use the library with double in hundreds of source files: the templates of double, compiled once.
//
// Include this file beside the headers that are used, and compile cmake/instances.cpp once into the program; with CMake, linking
// rackwork::instances does the latter. Then the compiler need not make the code of these templates again in every file. Other types, constant
// expressions and everything else stay as they are. Files with and without this header go together.
#ifndef RACKWORK_INSTANCES_HPP
#define RACKWORK_INSTANCES_HPP

#include "analysis/contact.hpp"
#include "analysis/contact_lines.hpp"
#include "analysis/tooth_root.hpp"
#include "curve/biarc.hpp"
#include "curve/bspline.hpp"
#include "curve/offset.hpp"
#include "curve/polyline.hpp"
#include "findings.hpp"
#include "form/outline.hpp"
#include "form/section.hpp"
#include "gear.hpp"
#include "generated_root.hpp"
#include "measure/chord.hpp"
#include "measure/pins.hpp"
#include "measure/span.hpp"
#include "mesh.hpp"

// One list for both uses: declared here, defined in cmake/instances.cpp.
#ifdef RACKWORK_DEFINE_INSTANCES
#define RACKWORK_INSTANCE template
#else
#define RACKWORK_INSTANCE extern template
#endif

namespace rackwork {

RACKWORK_INSTANCE class gear<double>;
RACKWORK_INSTANCE class generated_root<double>;
RACKWORK_INSTANCE class mesh<double>;
RACKWORK_INSTANCE class tooth_form<double>;
RACKWORK_INSTANCE class path_of_contact<double>;
RACKWORK_INSTANCE class contact_lines<double>;

RACKWORK_INSTANCE double span_measurement(const gear<double>&, int);
RACKWORK_INSTANCE double span_contact_diameter(const gear<double>&, int);
RACKWORK_INSTANCE int recommended_teeth_spanned(const gear<double>&);
RACKWORK_INSTANCE pin_position<double> position_of_pin(const gear<double>&, const double&);
RACKWORK_INSTANCE double pin_diameter_touching_at(const gear<double>&, const double&);
RACKWORK_INSTANCE double ideal_pin_diameter(const gear<double>&);
RACKWORK_INSTANCE double dimension_over_balls(const gear<double>&, const double&);
RACKWORK_INSTANCE double dimension_over_pins(const gear<double>&, const double&);
RACKWORK_INSTANCE double normal_tooth_thickness_from_pins(const gear<double>&, const double&, const double&);

RACKWORK_INSTANCE outline<double> outline_of(const tooth_form<double>&);
RACKWORK_INSTANCE outline<double> outline_of(const gear<double>&);
RACKWORK_INSTANCE section_properties<double> transverse_section(const gear<double>&);
RACKWORK_INSTANCE polyline<double> polyline_of(const outline<double>&, const double&);
RACKWORK_INSTANCE bspline_path<double> bsplines_of(const outline<double>&, const double&, const bspline_options&);
RACKWORK_INSTANCE arc_path<double> biarcs_of(const outline<double>&, const double&);
RACKWORK_INSTANCE offset_outline<double> offset_of(const outline<double>&, const double&);
RACKWORK_INSTANCE tooth_root<double> root_under_tip_load(const gear<double>&, const angle<double>&);

RACKWORK_INSTANCE finding_list<double> findings(const gear<double>&, const finding_limits<double>&);
RACKWORK_INSTANCE finding_list<double> findings(const mesh<double>&, const finding_limits<double>&);

} // namespace rackwork

#undef RACKWORK_INSTANCE

#endif
