//! The files of export/: their structure, and what is drawn against what the section says.

mod common;

#[path = "export/dimensions.rs"]
mod dimensions;
#[path = "export/dxf.rs"]
mod dxf_file;
#[path = "export/half_section.rs"]
mod half_section;
#[path = "export/limits.rs"]
mod limits;
#[path = "export/part_drawing.rs"]
mod part_drawing;
#[path = "export/profile.rs"]
mod profile;
#[path = "export/pdf.rs"]
mod pdf_file;
#[path = "export/plate_picture.rs"]
mod plate_picture;
#[path = "export/sheet_frame.rs"]
mod sheet_frame;
#[path = "export/svg.rs"]
mod svg_file;
#[path = "export/walls.rs"]
mod walls;
