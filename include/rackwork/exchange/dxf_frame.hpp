// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a DXF file of release 2000 (AC1015) must hold around its entities: header, tables, blocks, objects, each with its handle
// and its owner.
#ifndef RACKWORK_EXCHANGE_DXF_FRAME_HPP
#define RACKWORK_EXCHANGE_DXF_FRAME_HPP

#include "../core/point.hpp"
#include "arc_polyline.hpp"
#include "length_unit.hpp"
#include "text_output.hpp"

#include <charconv>
#include <ostream>
#include <span>
#include <string>
#include <string_view>

namespace rackwork::detail {

/// A layer of a DXF file; its handle follows from its place in the list.
struct dxf_layer {
    std::string_view name;
    /// Number of the colour in the format's own table; 7 is black on white paper and white on a black screen.
    int colour;
    /// Hundredths of a millimetre.
    int line_width;
    std::string_view line_type;
};

/// The name that the format itself gives to the dash-dotted line.
inline constexpr std::string_view dxf_centre_line = "CENTER";

/// Handles of all that is in every file; the layers' and the entities' come after these. 0 means 'no owner'.
enum dxf_handle : unsigned {
    dxf_nobody,
    dxf_view_ports,
    dxf_line_types,
    dxf_layers,
    dxf_text_styles,
    dxf_views,
    dxf_coordinate_systems,
    dxf_applications,
    dxf_dimension_styles,
    dxf_block_records,
    dxf_view_port,
    dxf_line_by_block,
    dxf_line_by_layer,
    dxf_line_continuous,
    dxf_line_centre,
    dxf_text_style,
    dxf_application,
    dxf_dimension_style,
    dxf_model_record,
    dxf_model_block,
    dxf_model_block_end,
    dxf_paper_record,
    dxf_paper_block,
    dxf_paper_block_end,
    dxf_root,
    dxf_groups,
    dxf_layouts,
    dxf_multi_line_styles,
    dxf_plot_settings,
    dxf_plot_styles,
    dxf_plot_style,
    dxf_model_layout,
    dxf_paper_layout,
    dxf_multi_line_style,
    dxf_first_free,
};

/// Writes group after group of a DXF file.
class dxf_groups_output {
public:
    explicit dxf_groups_output(std::ostream& stream) : out_(stream) {}

    dxf_groups_output& text(int code, std::string_view value) {
        out_.text(std::to_string(code)).text("\n").text(value).text("\n");
        return *this;
    }
    dxf_groups_output& whole(int code, int value) { return text(code, std::to_string(value)); }
    /// A number with all its digits, so that a reader gets the very same double.
    dxf_groups_output& real(int code, double value) { return text(code, exact_text(value)); }
    dxf_groups_output& handle(int code, unsigned value) {
        char digits[2 * sizeof value];
        std::string capitals(digits, std::to_chars(digits, digits + sizeof digits, value, 16).ptr);
        for (char& digit : capitals) {
            if (digit >= 'a') digit = static_cast<char>(digit - 'a' + 'A');
        }
        return text(code, capitals);
    }
    /// Coordinates: x under the code, y under the code 10 above.
    dxf_groups_output& flat(int code, const point<double>& p) { return real(code, p.x).real(code + 10, p.y); }
    /// Coordinates with a z of 0 under the code 20 above.
    dxf_groups_output& spatial(int code, const point<double>& p) { return flat(code, p).real(code + 20, 0); }

    dxf_groups_output& begin_section(std::string_view name) { return text(0, "SECTION").text(2, name); }
    dxf_groups_output& end_section() { return text(0, "ENDSEC"); }

    dxf_groups_output& begin_table(std::string_view name, dxf_handle own, int entries) {
        return text(0, "TABLE").text(2, name).handle(5, own).handle(330, dxf_nobody).text(100, "AcDbSymbolTable").whole(70, entries);
    }
    dxf_groups_output& end_table() { return text(0, "ENDTAB"); }
    dxf_groups_output& begin_record(std::string_view type, unsigned own, dxf_handle table, std::string_view kind) {
        return text(0, type).handle(5, own).handle(330, table).text(100, "AcDbSymbolTableRecord").text(100, kind);
    }
    dxf_groups_output& begin_entity(std::string_view type, unsigned own, std::string_view layer, dxf_handle owner = dxf_model_record) {
        return text(0, type).handle(5, own).handle(330, owner).text(100, "AcDbEntity").text(8, layer);
    }
    dxf_groups_output& begin_object(std::string_view type, unsigned own, dxf_handle owner) {
        return text(0, type).handle(5, own).handle(330, owner);
    }

    void finish() { out_.finish(); }

private:
    text_output out_;
};

/// What the frame has to know of the drawing.
struct dxf_drawing {
    length_unit unit;
    std::span<const dxf_layer> layers;
    bounding_box<double> extent;
    /// Length on which the dash-dotted line's pattern is built.
    double module;
    unsigned first_unused_handle;
};

inline void write_dxf_header(dxf_groups_output& out, const dxf_drawing& drawing) {
    const bool metric = drawing.unit == length_unit::millimetre;
    out.begin_section("HEADER");
    out.text(9, "$ACADVER").text(1, "AC1015");
    out.text(9, "$DWGCODEPAGE").text(3, "ANSI_1252");
    out.text(9, "$INSBASE").spatial(10, {0, 0});
    out.text(9, "$EXTMIN").spatial(10, drawing.extent.lowest);
    out.text(9, "$EXTMAX").spatial(10, drawing.extent.highest);
    out.text(9, "$LIMMIN").flat(10, drawing.extent.lowest);
    out.text(9, "$LIMMAX").flat(10, drawing.extent.highest);
    out.text(9, "$LTSCALE").real(40, 1);
    out.text(9, "$CELTSCALE").real(40, 1);
    out.text(9, "$TEXTSTYLE").text(7, "Standard");
    out.text(9, "$CLAYER").text(8, "0");
    out.text(9, "$CELTYPE").text(6, "ByLayer");
    out.text(9, "$CECOLOR").whole(62, 256);
    out.text(9, "$LUNITS").whole(70, 2);
    out.text(9, "$LUPREC").whole(70, 4);
    out.text(9, "$PDMODE").whole(70, 0);
    out.text(9, "$PDSIZE").real(40, 0);
    out.text(9, "$MEASUREMENT").whole(70, metric ? 1 : 0);
    out.text(9, "$INSUNITS").whole(70, metric ? 4 : 1);
    out.text(9, "$PSTYLEMODE").whole(290, 1);
    out.text(9, "$HANDSEED").handle(5, drawing.first_unused_handle);
    out.end_section();
    out.begin_section("CLASSES").end_section();
}

inline void write_dxf_tables(dxf_groups_output& out, const dxf_drawing& drawing) {
    out.begin_section("TABLES");

    // The view that a program opens with: the whole drawing and a little around it.
    const point<double> size = drawing.extent.highest - drawing.extent.lowest;
    out.begin_table("VPORT", dxf_view_ports, 1);
    out.begin_record("VPORT", dxf_view_port, dxf_view_ports, "AcDbViewportTableRecord").text(2, "*Active").whole(70, 0);
    out.flat(10, {0, 0}).flat(11, {1, 1}).flat(12, 0.5 * (drawing.extent.lowest + drawing.extent.highest));
    out.flat(13, {0, 0}).flat(14, {drawing.module, drawing.module}).flat(15, {drawing.module, drawing.module});
    out.spatial(16, {0, 0}).real(36, 1).spatial(17, {0, 0});
    out.real(40, 1.1 * larger(size.x, size.y)).real(41, 1).real(42, 50).real(43, 0).real(44, 0).real(50, 0).real(51, 0);
    out.whole(71, 0).whole(72, 1000).whole(73, 1).whole(74, 3).whole(75, 0).whole(76, 0).whole(77, 0).whole(78, 0);
    out.end_table();

    const auto line_type = [&](std::string_view name, dxf_handle own, std::string_view description, std::span<const double> dashes) {
        double length = 0;
        for (const double dash : dashes) length += magnitude(dash);
        out.begin_record("LTYPE", own, dxf_line_types, "AcDbLinetypeTableRecord").text(2, name).whole(70, 0).text(3, description);
        out.whole(72, 65).whole(73, static_cast<int>(dashes.size())).real(40, length);
        for (const double dash : dashes) out.real(49, dash).whole(74, 0);
    };
    const double m = drawing.module;
    const double dash_dotted[] = {m, -m / 4, m / 8, -m / 4}; // gaps are negative
    out.begin_table("LTYPE", dxf_line_types, 4);
    line_type("ByBlock", dxf_line_by_block, "", {});
    line_type("ByLayer", dxf_line_by_layer, "", {});
    line_type("Continuous", dxf_line_continuous, "Solid line", {});
    line_type(dxf_centre_line, dxf_line_centre, "Centre line ____ _ ____ _ ____", dash_dotted);
    out.end_table();

    out.begin_table("LAYER", dxf_layers, static_cast<int>(drawing.layers.size()));
    unsigned own = dxf_first_free;
    for (const dxf_layer& layer : drawing.layers) {
        out.begin_record("LAYER", own++, dxf_layers, "AcDbLayerTableRecord").text(2, layer.name).whole(70, 0);
        out.whole(62, layer.colour).text(6, layer.line_type).whole(370, layer.line_width).handle(390, dxf_plot_style);
    }
    out.end_table();

    out.begin_table("STYLE", dxf_text_styles, 1);
    out.begin_record("STYLE", dxf_text_style, dxf_text_styles, "AcDbTextStyleTableRecord").text(2, "Standard").whole(70, 0);
    out.real(40, 0).real(41, 1).real(50, 0).whole(71, 0).real(42, drawing.module).text(3, "txt").text(4, "");
    out.end_table();

    out.begin_table("VIEW", dxf_views, 0).end_table();
    out.begin_table("UCS", dxf_coordinate_systems, 0).end_table();

    out.begin_table("APPID", dxf_applications, 1);
    out.begin_record("APPID", dxf_application, dxf_applications, "AcDbRegAppTableRecord").text(2, "ACAD").whole(70, 0);
    out.end_table();

    out.begin_table("DIMSTYLE", dxf_dimension_styles, 1).text(100, "AcDbDimStyleTable").whole(71, 0);
    // This table alone keeps the handles of its records under another code.
    out.text(0, "DIMSTYLE").handle(105, dxf_dimension_style).handle(330, dxf_dimension_styles);
    out.text(100, "AcDbSymbolTableRecord").text(100, "AcDbDimStyleTableRecord").text(2, "Standard").whole(70, 0);
    out.handle(340, dxf_text_style);
    out.end_table();

    out.begin_table("BLOCK_RECORD", dxf_block_records, 2);
    out.begin_record("BLOCK_RECORD", dxf_model_record, dxf_block_records, "AcDbBlockTableRecord").text(2, "*Model_Space");
    out.handle(340, dxf_model_layout);
    out.begin_record("BLOCK_RECORD", dxf_paper_record, dxf_block_records, "AcDbBlockTableRecord").text(2, "*Paper_Space");
    out.handle(340, dxf_paper_layout);
    out.end_table();
    out.end_section();
}

inline void write_dxf_blocks(dxf_groups_output& out) {
    const auto block = [&](std::string_view name, dxf_handle record, dxf_handle begin, dxf_handle end, bool paper) {
        const auto begin_part = [&](std::string_view type, dxf_handle own) {
            out.text(0, type).handle(5, own).handle(330, record).text(100, "AcDbEntity");
            if (paper) out.whole(67, 1);
            out.text(8, "0");
        };
        begin_part("BLOCK", begin);
        out.text(100, "AcDbBlockBegin").text(2, name).whole(70, 0).spatial(10, {0, 0}).text(3, name).text(1, "");
        begin_part("ENDBLK", end);
        out.text(100, "AcDbBlockEnd");
    };
    out.begin_section("BLOCKS");
    block("*Model_Space", dxf_model_record, dxf_model_block, dxf_model_block_end, false);
    block("*Paper_Space", dxf_paper_record, dxf_paper_block, dxf_paper_block_end, true);
    out.end_section();
}

inline void write_dxf_objects(dxf_groups_output& out, const dxf_drawing& drawing) {
    const auto dictionary = [&](dxf_handle own, dxf_handle owner) -> dxf_groups_output& {
        return out.begin_object("DICTIONARY", own, owner).text(100, "AcDbDictionary").whole(281, 1);
    };
    const auto layout = [&](std::string_view name, dxf_handle own, dxf_handle record, bool model, const bounding_box<double>& extent) {
        out.begin_object("LAYOUT", own, dxf_layouts).text(100, "AcDbPlotSettings").text(1, "").text(2, "").text(4, "A4").text(6, "");
        // Margins, paper, origin and window of a plot, in millimetres: an A4 sheet, everything fitted on it.
        for (int code = 40; code <= 43; ++code) out.real(code, 10);
        out.real(44, 210).real(45, 297);
        for (int code = 46; code <= 49; ++code) out.real(code, 0);
        out.real(140, 0).real(141, 0).real(142, 1).real(143, 1).whole(70, model ? 1024 : 0).whole(72, 1).whole(73, 0).whole(74, 1);
        out.text(7, "").whole(75, 0).real(147, 1).real(148, 0).real(149, 0);
        out.text(100, "AcDbLayout").text(1, name).whole(70, 1).whole(71, model ? 0 : 1);
        out.flat(10, extent.lowest).flat(11, extent.highest).spatial(12, {0, 0});
        out.spatial(14, extent.lowest).spatial(15, extent.highest).real(146, 0);
        out.spatial(13, {0, 0}).spatial(16, {1, 0}).spatial(17, {0, 1}).whole(76, 0).handle(330, record);
    };
    out.begin_section("OBJECTS");
    dictionary(dxf_root, dxf_nobody);
    out.text(3, "ACAD_GROUP").handle(350, dxf_groups).text(3, "ACAD_LAYOUT").handle(350, dxf_layouts);
    out.text(3, "ACAD_MLINESTYLE").handle(350, dxf_multi_line_styles).text(3, "ACAD_PLOTSETTINGS").handle(350, dxf_plot_settings);
    out.text(3, "ACAD_PLOTSTYLENAME").handle(350, dxf_plot_styles);
    dictionary(dxf_groups, dxf_root);
    dictionary(dxf_layouts, dxf_root).text(3, "Layout1").handle(350, dxf_paper_layout).text(3, "Model").handle(350, dxf_model_layout);
    dictionary(dxf_multi_line_styles, dxf_root).text(3, "Standard").handle(350, dxf_multi_line_style);
    dictionary(dxf_plot_settings, dxf_root);
    out.begin_object("ACDBDICTIONARYWDFLT", dxf_plot_styles, dxf_root).text(100, "AcDbDictionary").whole(281, 1);
    out.text(3, "Normal").handle(350, dxf_plot_style).text(100, "AcDbDictionaryWithDefault").handle(340, dxf_plot_style);
    out.begin_object("ACDBPLACEHOLDER", dxf_plot_style, dxf_plot_styles);
    layout("Model", dxf_model_layout, dxf_model_record, true, drawing.extent);
    layout("Layout1", dxf_paper_layout, dxf_paper_record, false, {{0, 0}, {210, 297}});
    out.begin_object("MLINESTYLE", dxf_multi_line_style, dxf_multi_line_styles).text(100, "AcDbMlineStyle").text(2, "Standard");
    out.whole(70, 0).text(3, "").whole(62, 256).real(51, 90).real(52, 90).whole(71, 2);
    for (const double offset : {0.5, -0.5}) out.real(49, offset).whole(62, 256).text(6, "ByLayer");
    out.end_section();
}

} // namespace rackwork::detail

#endif
