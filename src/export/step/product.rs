//! The header, and the product that a solid is the shape of.

use super::exchange::{Exchange, Id};
use super::geometry::{UP, on_axis};
use super::real::{real, text};

/// What is said of a file besides its solid.
#[derive(Clone, Copy, Debug)]
pub(super) struct Product<'a> {
    /// The design's name.
    pub name: &'a str,
    /// One or two sentences.
    pub about: &'a str,
}

/// The time stamp of every file: fixed, so that the same design gives the same bytes.
const TIME_STAMP: &str = "2000-01-01T00:00:00";

/// Points closer than this are one to a reader, in millimetres: the bound on splines. Were it
/// larger, readers would take short edges for points; were it smaller, they would find gaps.
const UNCERTAINTY: f64 = 1e-6;

/// From the first line to the end of the header section.
pub(super) fn header(product: &Product) -> String {
    let (name, about) = (text(product.name), text(product.about));
    let tool = text(concat!("sectionwright ", env!("CARGO_PKG_VERSION")));
    format!(
        "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(({about}),'2;1');\n\
         FILE_NAME({name},'{TIME_STAMP}',(''),(''),{tool},{tool},'');\n\
         FILE_SCHEMA(('AUTOMOTIVE_DESIGN {{ 1 0 10303 214 1 1 1 }}'));\nENDSEC;\n"
    )
}

/// The solid of a shell, its representation, and the product it belongs to.
pub(super) fn shell_to_product(data: &mut Exchange, shell: Id, product: &Product) {
    let (name, about) = (text(product.name), text(product.about));
    let solid = data.add(&format!("MANIFOLD_SOLID_BREP({name},{shell})"));
    let origin = on_axis(data, 0.0, UP);
    let context = context(data);
    let shape = data
        .add(&format!("ADVANCED_BREP_SHAPE_REPRESENTATION({name},({origin},{solid}),{context})"));
    // The names that the schema itself asks for (ISO 10303-214, annex on its usage).
    let application =
        data.add("APPLICATION_CONTEXT('core data for automotive mechanical design processes')");
    data.add(&format!(
        "APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,\
         {application})"
    ));
    let product_context = data.add(&format!("PRODUCT_CONTEXT('',{application},'mechanical')"));
    let product = data.add(&format!("PRODUCT({name},{name},{about},({product_context}))"));
    data.add(&format!("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,({product}))"));
    let formation = data.add(&format!("PRODUCT_DEFINITION_FORMATION('','',{product})"));
    let design =
        data.add(&format!("PRODUCT_DEFINITION_CONTEXT('part definition',{application},'design')"));
    let definition = data.add(&format!("PRODUCT_DEFINITION('design','',{formation},{design})"));
    let definition_shape = data.add(&format!("PRODUCT_DEFINITION_SHAPE('','',{definition})"));
    data.add(&format!("SHAPE_DEFINITION_REPRESENTATION({definition_shape},{shape})"));
}

/// Millimetres, radians, and how exact it is.
fn context(data: &mut Exchange) -> Id {
    let length = data.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))");
    let angle = data.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))");
    let solid_angle = data.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())");
    let uncertainty = data.add(&format!(
        "UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE({}),{length},'distance_accuracy_value',\
         'splines and ends of edges')",
        real(UNCERTAINTY)
    ));
    data.add(&format!(
        "(GEOMETRIC_REPRESENTATION_CONTEXT(3)\
         GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT(({uncertainty}))\
         GLOBAL_UNIT_ASSIGNED_CONTEXT(({length},{angle},{solid_angle}))\
         REPRESENTATION_CONTEXT('',''))"
    ))
}
