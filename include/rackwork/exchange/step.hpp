// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Solids as STEP (ISO 10303-21, application protocol 214).
#ifndef RACKWORK_EXCHANGE_STEP_HPP
#define RACKWORK_EXCHANGE_STEP_HPP

#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../solid/brep.hpp"
#include "../version.hpp"
#include "length_unit.hpp"
#include "step_brep.hpp"
#include "step_text.hpp"

#include <cstddef>
#include <ostream>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rackwork {

/// What can be chosen about a STEP file. Texts are UTF-8.
struct step_options {
    /// Name of the part.
    std::string_view name = "gear";
    /// The unit of the solid's lengths; the file states it and keeps the numbers as they are.
    length_unit unit = length_unit::millimetre;
    /// Time stamp of the header, ISO 8601. Neutral unless stated, never the clock's, so that the same solid is the same bytes.
    std::string_view time_stamp = "1970-01-01T00:00:00";
    std::string_view author = "";
    std::string_view organization = "";
};

/// Writes solids as the bodies of one part. The file's uncertainty is how far edges may lie off their faces (at least 10^-8 of the solid's
/// size, which programs take for the same point); how far the boundary may be from the exact one stands in the part's description.
/// Throws geometry_error where there is no solid, before the first byte; std::ios_base::failure unless the stream has taken every byte
/// (without exceptions the program ends).
inline void write_step(std::ostream& stream, std::span<const brep> solids, const step_options& options = {}) {
    require(check_greater("number of solids", static_cast<double>(solids.size()), 0.));
    double deviation = 0;
    double uncertainty = 0;
    for (const brep& b : solids) {
        deviation = larger(deviation, b.deviation);
        uncertainty = larger(uncertainty, larger(b.edge_deviation, 1e-8 * b.size));
    }
    const bool inch = options.unit == length_unit::inch;
    const std::string name = detail::step_string(options.name);
    std::string description = "boundary within ";
    detail::append_step_real(description, deviation);
    description += inch ? " in of the exact one" : " mm of the exact one";

    detail::step_entities out(stream);
    out.line("ISO-10303-21;").line("HEADER;");
    out.line("FILE_DESCRIPTION((" + detail::step_string(description) + "),'2;1');");
    out.line("FILE_NAME(" + name + "," + detail::step_string(options.time_stamp) + ",(" +
             detail::step_string(options.author) + "),(" + detail::step_string(options.organization) +
             "),'Rackwork " RACKWORK_VERSION_STRING "','Rackwork','');");
    out.line("FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));").line("ENDSEC;").line("DATA;");

    const std::size_t application =
        out.entity("APPLICATION_CONTEXT('core data for automotive mechanical design processes')");
    out.begin("APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,")
        .reference(application)
        .words(")")
        .end();
    const std::size_t product_context =
        out.begin("PRODUCT_CONTEXT('',").reference(application).words(",'mechanical')").end();
    const std::size_t product = out.begin("PRODUCT(")
                                    .words(name)
                                    .words(",")
                                    .words(name)
                                    .words(",")
                                    .words(detail::step_string(description))
                                    .words(",(")
                                    .reference(product_context)
                                    .words("))")
                                    .end();
    out.begin("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,(").reference(product).words("))").end();
    const std::size_t formation = out.begin("PRODUCT_DEFINITION_FORMATION('','',").reference(product).words(")").end();
    const std::size_t design =
        out.begin("PRODUCT_DEFINITION_CONTEXT('part definition',").reference(application).words(",'design')").end();
    const std::size_t definition =
        out.begin("PRODUCT_DEFINITION('design','',").reference(formation).words(",").reference(design).words(")").end();
    const std::size_t shape = out.begin("PRODUCT_DEFINITION_SHAPE('','',").reference(definition).words(")").end();

    std::size_t length = out.entity("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))");
    if (inch) {
        const std::size_t dimension = out.entity("DIMENSIONAL_EXPONENTS(1.,0.,0.,0.,0.,0.,0.)");
        const std::size_t measure =
            out.begin("LENGTH_MEASURE_WITH_UNIT(LENGTH_MEASURE(25.4),").reference(length).words(")").end();
        length = out.begin("(CONVERSION_BASED_UNIT('INCH',")
                     .reference(measure)
                     .words(")LENGTH_UNIT()NAMED_UNIT(")
                     .reference(dimension)
                     .words("))")
                     .end();
    }
    const std::size_t plane_angle = out.entity("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))");
    const std::size_t solid_angle = out.entity("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())");
    const std::size_t accuracy = out.begin("UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(")
                                     .real(uncertainty)
                                     .words("),")
                                     .reference(length)
                                     .words(",'distance_accuracy_value','greatest distance of an edge from its faces')")
                                     .end();
    const std::size_t context = out.begin("(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((")
                                    .reference(accuracy)
                                    .words("))GLOBAL_UNIT_ASSIGNED_CONTEXT((")
                                    .reference(length)
                                    .words(",")
                                    .reference(plane_angle)
                                    .words(",")
                                    .reference(solid_angle)
                                    .words("))REPRESENTATION_CONTEXT('',''))")
                                    .end();

    detail::step_brep_writer writer(out);
    const std::size_t axes = writer.axes();
    std::vector<std::size_t> bodies;
    for (const brep& b : solids) bodies.push_back(writer.write(b, name));
    out.begin("ADVANCED_BREP_SHAPE_REPRESENTATION(").words(name).words(",(").reference(axes);
    for (const std::size_t body : bodies) out.words(",").reference(body);
    const std::size_t representation = out.words("),").reference(context).words(")").end();
    out.begin("SHAPE_DEFINITION_REPRESENTATION(")
        .reference(shape)
        .words(",")
        .reference(representation)
        .words(")")
        .end();
    out.line("ENDSEC;").line("END-ISO-10303-21;");
    out.finish();
}

/// Writes one solid; throws as for several.
inline void write_step(std::ostream& stream, const brep& solid, const step_options& options = {}) {
    write_step(stream, std::span<const brep>(&solid, 1), options);
}

} // namespace rackwork

#endif
