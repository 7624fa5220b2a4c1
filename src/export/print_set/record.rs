//! `print.json`: what was sent to the printer, and with which compensation, so that what the print
//! said can be put to it later.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{PrintSources, stl_of};
use crate::export::report::{digest, digest_of};
use crate::export::{File, Meshed};
use crate::print::specimen::{Mated, Rung, SpecimenKind};
use crate::print::{Piece, Proof, Tells};
use crate::quantity::Length;
use crate::section::Section;

/// The version of the record's form; it grows when a key changes its meaning or goes.
const FORMAT: u32 = 1;

/// A plate that was made. Lengths in mm.
#[derive(Clone, Debug, Deserialize, Serialize)]
pub struct PrintRecord {
    format: u32,
    title: String,
    /// The printer's profile, as it was named.
    pub printer: String,
    section_sha256: Option<String>,
    /// Flank compensation that it was printed with, internal and external.
    pub thread: [f64; 2],
    /// The thread of its ladder, where it has one.
    pub ladder: Option<String>,
    /// The ladder's rungs.
    pub rungs: Vec<RungRecord>,
    pieces: Vec<PieceRecord>,
    proofs: Vec<ProofRecord>,
    files: BTreeMap<String, String>,
}

/// A rung.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
pub struct RungRecord {
    number: u8,
    clearance: f64,
    opened: f64,
}

/// A piece, measured on the solid that is exported and on its triangles.
#[derive(Clone, Debug, Deserialize, Serialize)]
pub struct PieceRecord {
    name: String,
    what: String,
    file: String,
    at: [f64; 2],
    height: f64,
    triangles: usize,
    mesh_volume: f64,
    weighed_volume: Option<f64>,
    chord_error: f64,
    left_smooth: Vec<String>,
    lost: Vec<String>,
}

/// What a print tells of a check.
#[derive(Clone, Debug, Deserialize, Serialize)]
pub struct ProofRecord {
    code: String,
    design: String,
    printed: Option<String>,
    tells: String,
}

impl PrintRecord {
    /// Reads the text of a `print.json`; none where it is none of this version's.
    pub fn read(text: &str) -> Option<Self> {
        serde_json::from_str(text).ok().filter(|record: &Self| record.format == FORMAT)
    }

    /// Whether it is of this very section.
    pub fn is_of(&self, section: &Section) -> bool {
        self.section_sha256.as_ref() == Some(&digest_of(section))
    }

    /// The ladder's thread and rungs; none where no ladder was printed.
    pub fn rungs(&self) -> Option<(Mated, Vec<Rung>)> {
        let name = self.ladder.as_deref()?;
        let mated = Mated::ALL.into_iter().find(|mated| mated.name() == name)?;
        let rung = |rung: &RungRecord| Rung {
            number: rung.number,
            clearance: Length::mm(rung.clearance),
            opened: Length::mm(rung.opened),
        };
        Some((mated, self.rungs.iter().map(rung).collect()))
    }

    /// The flanks' compensation that it was printed with, internal and external.
    pub fn used(&self) -> [Length; 2] {
        self.thread.map(Length::mm)
    }
}

/// The record of a plate, beside its other files.
pub(super) fn record(sources: &PrintSources, files: &[File]) -> String {
    let PrintSources { title, printer, printer_as, pieces, layout, meshes, of } = *sources;
    let has_ladder = pieces.iter().any(|piece| piece.kind == Some(SpecimenKind::Ladder));
    let places = layout.places.iter().map(|place| place.at);
    let each = pieces.iter().zip(meshes).zip(places);
    let rungs = pieces.iter().filter_map(|piece| piece.rung.as_ref());
    let proofs = of.map_or(&[][..], |of| of.proofs);
    let record = PrintRecord {
        format: FORMAT,
        title: title.to_owned(),
        printer: printer_as.to_owned(),
        section_sha256: of.map(|of| digest_of(of.section)),
        thread: [printer.internal_flank, printer.external_flank].map(Length::as_mm),
        ladder: of.filter(|_| has_ladder).map(|of| of.ladder.mated.name().to_owned()),
        rungs: rungs
            .map(|rung| RungRecord {
                number: rung.number,
                clearance: rung.clearance.as_mm(),
                opened: rung.opened.as_mm(),
            })
            .collect(),
        pieces: each.map(|((piece, meshed), at)| PieceRecord::new(piece, meshed, at)).collect(),
        proofs: proofs.iter().map(ProofRecord::from).collect(),
        files: files.iter().map(|file| (file.name.clone(), digest(&file.bytes))).collect(),
    };
    let text = serde_json::to_string_pretty(&record).expect("plain structs serialize");
    text + "\n"
}

impl PieceRecord {
    fn new(piece: &Piece, meshed: &Meshed, at: [f64; 2]) -> Self {
        Self {
            name: piece.name.clone(),
            what: piece.what.clone(),
            file: stl_of(piece),
            at,
            height: piece.height().as_mm(),
            triangles: meshed.mesh.triangles.len(),
            mesh_volume: meshed.audit.volume,
            weighed_volume: Some(meshed.weighed),
            chord_error: meshed.mesh.chord_error,
            left_smooth: piece.smooth.iter().map(ToString::to_string).collect(),
            lost: piece.losses.iter().map(ToString::to_string).collect(),
        }
    }
}

impl From<&Proof> for ProofRecord {
    fn from(proof: &Proof) -> Self {
        Self {
            code: proof.code.to_owned(),
            design: proof.design.to_string(),
            printed: proof.printed.map(|verdict| verdict.to_string()),
            tells: match proof.tells {
                Tells::Shows => "shows".to_owned(),
                Tells::TooNear => "too near".to_owned(),
                Tells::Nothing(why) => format!("nothing: {why}"),
            },
        }
    }
}
