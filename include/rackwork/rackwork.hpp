// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Everything but the writers of exchange/, which are included one by one.
#ifndef RACKWORK_RACKWORK_HPP
#define RACKWORK_RACKWORK_HPP

#include "analysis/contact.hpp"
#include "analysis/contact_lines.hpp"
#include "analysis/contact_point.hpp"
#include "analysis/lewis_form_factor.hpp"
#include "analysis/normal_section.hpp"
#include "analysis/pair_factors.hpp"
#include "analysis/tooth_root.hpp"
#include "analysis/tooth_root_iso_6336.hpp"
#include "analysis/virtual_spur_gear.hpp"
#include "basic_rack.hpp"
#include "centre_distance.hpp"
#include "core/angle.hpp"
#include "core/error.hpp"
#include "core/point.hpp"
#include "core/scalar.hpp"
#include "curve/polyline.hpp"
#include "finding.hpp"
#include "findings.hpp"
#include "form/outline.hpp"
#include "form/section.hpp"
#include "form/segment.hpp"
#include "form/tooth.hpp"
#include "gear.hpp"
#include "gear_parameters.hpp"
#include "generated_root.hpp"
#include "involute.hpp"
#include "measure/chord.hpp"
#include "measure/pins.hpp"
#include "measure/span.hpp"
#include "mesh.hpp"
#include "rack_trochoid.hpp"
#include "version.hpp"

#endif
