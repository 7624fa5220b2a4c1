//! The manifest's form, the same in formats 1 and 2: what these differ in is `section.json`.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::manifest::{AskedFor, Manifest, Summary, printable};
use crate::design::{Kind, Lookup};

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Form {
    format: u32,
    tool: String,
    name: String,
    kept: Option<String>,
    unit: String,
    unit_thread: String,
    tenon: String,
    grip: Grip,
    material: String,
    verdict: String,
    asked: Asked,
    written: Vec<String>,
    lookups: Vec<Found>,
    files: BTreeMap<String, Sum>,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Grip {
    #[serde(rename = "length_mm")]
    length: f64,
    #[serde(rename = "front_mm")]
    front: f64,
    #[serde(rename = "shoulder_mm")]
    shoulder: f64,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Asked {
    chord_mm: f64,
    only: Option<String>,
    parts: Vec<String>,
    limits: Vec<String>,
    rack: Option<String>,
    sheet: Option<String>,
    scale: Option<String>,
    units: String,
    set: Vec<String>,
    after: Option<String>,
}

/// A lookup; files by their names.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Found {
    kind: String,
    reference: String,
    from: Option<String>,
    like: bool,
    file: String,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Sum {
    bytes: u64,
    sha256: String,
}

/// The manifest as text.
pub fn write(manifest: &Manifest) -> String {
    let Manifest { format, tool, name, asked, summary, written, lookups, files } = manifest;
    let called = |n: usize| written.get(n).cloned().unwrap_or_default();
    let found = |lookup: &Lookup| Found {
        kind: lookup.kind.word().to_owned(),
        reference: lookup.reference.clone(),
        from: lookup.from.map(called),
        like: lookup.like,
        file: called(lookup.file),
    };
    let sum = |(name, (bytes, sha256)): (&String, &(u64, String))| {
        (name.clone(), Sum { bytes: *bytes, sha256: sha256.clone() })
    };
    let AskedFor { chord, only, parts, limits, rack, sheet, scale, units, set, after } =
        asked.clone();
    let Summary { unit, unit_thread, tenon, grip, material, verdict, date } = summary.clone();
    let [length, front, shoulder] = grip;
    let all = Form {
        format: *format,
        tool: tool.clone(),
        name: name.clone(),
        kept: date,
        unit,
        unit_thread,
        tenon,
        grip: Grip { length, front, shoulder },
        material,
        verdict,
        asked: Asked {
            chord_mm: chord,
            only,
            parts,
            limits,
            rack,
            sheet,
            scale,
            units,
            set,
            after,
        },
        written: written.clone(),
        lookups: lookups.iter().map(found).collect(),
        files: files.iter().map(sum).collect(),
    };
    let text = serde_json::to_string_pretty(&all).expect("plain structs serialize");
    text + "\n"
}

/// Reads a manifest; why it can't be, where it can't.
pub fn read(bytes: &[u8]) -> Result<Manifest, String> {
    let all: Form = serde_json::from_slice(bytes).map_err(|error| error.to_string())?;
    let place = |name: &str| {
        let found = all.written.iter().position(|file| file == name);
        found.ok_or_else(|| format!("{name:?} is none of the design's files"))
    };
    let lookup = |found: &Found| {
        let kind = Kind::ALL.into_iter().find(|kind| kind.word() == found.kind);
        Ok::<_, String>(Lookup {
            kind: kind.ok_or_else(|| format!("{:?} is no kind of profile", found.kind))?,
            reference: found.reference.clone(),
            from: found.from.as_deref().map(place).transpose()?,
            like: found.like,
            file: place(&found.file)?,
        })
    };
    let lookups = all.lookups.iter().map(lookup).collect::<Result<_, _>>()?;
    let Asked { chord_mm, only, parts, limits, rack, sheet, scale, units, set, after } = all.asked;
    Ok(Manifest {
        format: all.format,
        tool: printable(&all.tool),
        name: printable(&all.name),
        asked: AskedFor {
            chord: chord_mm,
            only,
            parts,
            limits,
            rack,
            sheet,
            scale,
            units,
            set,
            after,
        },
        summary: Summary {
            unit: printable(&all.unit),
            unit_thread: printable(&all.unit_thread),
            tenon: printable(&all.tenon),
            grip: [all.grip.length, all.grip.front, all.grip.shoulder],
            material: printable(&all.material),
            verdict: printable(&all.verdict),
            date: all.kept.as_deref().map(printable),
        },
        written: all.written,
        lookups,
        files: all.files.into_iter().map(|(name, sum)| (name, (sum.bytes, sum.sha256))).collect(),
    })
}
