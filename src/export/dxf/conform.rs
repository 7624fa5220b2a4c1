//! Mends what the `dxf` crate writes, until readers find nothing to repair.

use super::record::{self, Record};
use crate::drawing::Layer;

/// Header variables that are kept. All others are a reader's defaults, and among them are the
/// clock ($TDCREATE and its kin) and random identifiers ($FINGERPRINTGUID, $VERSIONGUID).
const VARIABLES: [&str; 16] = [
    "$ACADVER",
    "$DWGCODEPAGE",
    "$INSBASE",
    "$EXTMIN",
    "$EXTMAX",
    "$LIMMIN",
    "$LIMMAX",
    "$LTSCALE",
    "$TEXTSTYLE",
    "$CLAYER",
    "$LUNITS",
    "$LUPREC",
    "$MEASUREMENT",
    "$LWDISPLAY",
    "$INSUNITS",
    "$EXTNAMES",
];

/// Header variables that are kept where a POINT is drawn: how readers show it.
const POINT_VARIABLES: [&str; 2] = ["$PDMODE", "$PDSIZE"];

/// The tables of a file, in the order in which readers of this release expect them.
const TABLES: [&str; 9] =
    ["VPORT", "LTYPE", "LAYER", "STYLE", "VIEW", "UCS", "APPID", "DIMSTYLE", "BLOCK_RECORD"];

/// Table entries that the crate adds for features that no drawing of ours uses.
const UNUSED: [&str; 4] = ["ANNOTATIVE", "ACADANNOTATIVE", "ACAD_MLEADERVER", "ACAD_NAV_VCDISPLAY"];

/// The two blocks that every file has, as the crate's records name them and as readers do.
const SPACES: [(&str, &str); 2] =
    [("*MODEL_SPACE", "*Model_Space"), ("*PAPER_SPACE", "*Paper_Space")];

/// The owner of what has none.
const NOBODY: &str = "0";

/// Gives out handles: 1, 2, 3 ... in hexadecimal.
#[derive(Default)]
struct Handles(u64);

impl Handles {
    fn next(&mut self) -> String {
        self.0 += 1;
        format!("{:X}", self.0)
    }
}

/// A whole file from what the crate wrote.
pub fn conform(raw: &[Record]) -> Vec<u8> {
    let mut handles = Handles::default();
    let mut tables = Vec::new();
    let mut owners = Vec::new();
    for name in TABLES {
        table(&mut tables, &mut owners, name, raw, &mut handles);
    }
    let blocks = blocks(raw, &owners, &mut handles);
    let owner = owners.first().map_or(NOBODY, |(_, handle)| handle);
    let entities = section(raw, "ENTITIES");
    let entities = entities.iter().map(|e| entity(e, &handles.next(), owner)).collect();
    let objects = objects(&mut handles);
    let header = header(raw, &handles.next());
    let sections = [
        ("HEADER", header),
        ("CLASSES", Vec::new()),
        ("TABLES", tables),
        ("BLOCKS", blocks),
        ("ENTITIES", entities),
        ("OBJECTS", objects),
    ];
    let framed = sections.into_iter().flat_map(|(name, records)| {
        let head = Record::new([(0, "SECTION"), (2, name)]);
        std::iter::once(head).chain(records).chain([Record::new([(0, "ENDSEC")])])
    });
    let file: Vec<Record> = framed.chain([Record::new([(0, "EOF")])]).collect();
    record::write(&file)
}

/// The records between a section's head and its end.
fn section<'a>(raw: &'a [Record], name: &str) -> &'a [Record] {
    let head = |r: &Record| r.kind() == "SECTION" && r.value(2) == Some(name);
    let Some(start) = raw.iter().position(head) else { return &[] };
    let rest = &raw[start + 1..];
    let end = rest.iter().position(|r| r.kind() == "ENDSEC").unwrap_or(rest.len());
    &rest[..end]
}

fn header(raw: &[Record], seed: &str) -> Vec<Record> {
    let points = section(raw, "ENTITIES").iter().any(|entity| entity.kind() == "POINT");
    let keeps = |v: &&Record| {
        VARIABLES.contains(&v.kind()) || points && POINT_VARIABLES.contains(&v.kind())
    };
    let kept = section(raw, "HEADER").iter().filter(keeps).cloned();
    kept.chain([Record::new([(9, "$HANDSEED"), (5, seed)])]).collect()
}

/// What is drawn in a block.
fn entity(raw: &Record, handle: &str, owner: &str) -> Record {
    // 370 = 0 would be the thinnest of lines instead of the layer's; 440 is of a later release.
    let entity = raw.clone().without(&[370, 440]).owned(5, handle, owner);
    match entity.kind() {
        // A point of angles between two lines, which no dimension of ours measures; the crate
        // writes it for an angle of three points.
        "DIMENSION" => entity.without(&[16, 26, 36]),
        _ => entity,
    }
}

/// One table with its entries; notes the blocks' names and the handles of their records, model
/// space first.
fn table(
    into: &mut Vec<Record>,
    owners: &mut Vec<(String, String)>,
    name: &str,
    raw: &[Record],
    handles: &mut Handles,
) {
    let all = section(raw, "TABLES").iter();
    let entries = all.filter(|r| r.kind() == name);
    let mut kept: Vec<&Record> =
        entries.filter(|r| r.value(2).is_some_and(|n| !UNUSED.contains(&n))).collect();
    if name == "BLOCK_RECORD" {
        kept.sort_by_key(|r| space(r).is_none());
    }
    let own = handles.next();
    let head = Record::new([(0, "TABLE"), (2, name), (5, &own), (330, NOBODY)]);
    let count = kept.len().to_string();
    let head = head.with([(100, "AcDbSymbolTable"), (70, &count)]);
    into.push(if name == "DIMSTYLE" { head.with([(100, "AcDbDimStyleTable")]) } else { head });
    for entry in kept {
        let handle = handles.next();
        let handle_code = if name == "DIMSTYLE" { 105 } else { 5 };
        let mut entry = entry.clone().owned(handle_code, &handle, &own);
        entry = match name {
            // Empty pointers to arrow blocks and text style.
            "DIMSTYLE" => {
                let entry = entry.without(&[340, 341, 342, 343, 344]);
                // A rounding of 0 is none, and so is its absence; but some readers take 0 for whole
                // numbers. No dimension uses STANDARD.
                if entry.value(2) == Some("STANDARD") { entry } else { entry.without(&[45]) }
            }
            // A pointer to a plot style that is not there, and a width that the crate can't set.
            "LAYER" => {
                let width = width_of(entry.value(2).unwrap_or_default());
                entry.without(&[390]).set(370, &width.to_string())
            }
            "BLOCK_RECORD" => {
                // A pointer to a layout that is not there.
                let entry = entry.without(&[340]);
                let name = space(&entry).or(entry.value(2)).unwrap_or_default().to_owned();
                let entry = entry.set(2, &name);
                owners.push((name, handle));
                entry
            }
            _ => entry,
        };
        into.push(entry);
    }
    into.push(Record::new([(0, "ENDTAB")]));
}

/// A layer's line width in hundredths of a millimetre; -3, the reader's default, for those that
/// are not ours.
fn width_of(layer: &str) -> i32 {
    let ours = Layer::ALL.into_iter().find(|l| l.name() == layer);
    ours.map_or(-3, |l| (l.line().width() * 100.0).round() as i32)
}

/// The readers' name of model or paper space; none for any other block.
fn space(record: &Record) -> Option<&'static str> {
    let found = SPACES.iter().find(|(crates, _)| record.value(2) == Some(crates));
    found.map(|(_, readers)| *readers)
}

/// Begin and end of every block, each with a handle of its own, and what is drawn between them;
/// that of model and paper space stands in a section of its own.
fn blocks(raw: &[Record], owners: &[(String, String)], handles: &mut Handles) -> Vec<Record> {
    let mut blocks = Vec::new();
    for (name, owner) in owners {
        let space = SPACES.iter().any(|(_, readers)| readers == name);
        let begin = Record::new([(0, "BLOCK"), (100, "AcDbEntity"), (8, "0")])
            .with([(100, "AcDbBlockBegin"), (2, name), (70, if space { "0" } else { "1" })])
            .with([(10, "0.0"), (20, "0.0"), (30, "0.0"), (3, name), (1, "")]);
        let end = Record::new([(0, "ENDBLK"), (100, "AcDbEntity"), (8, "0")])
            .with([(100, "AcDbBlockEnd")]);
        blocks.push(begin.owned(5, &handles.next(), owner));
        blocks.extend(inside(raw, name).iter().map(|e| entity(e, &handles.next(), owner)));
        blocks.push(end.owned(5, &handles.next(), owner));
    }
    blocks
}

/// What the crate wrote into a block.
fn inside<'a>(raw: &'a [Record], name: &str) -> &'a [Record] {
    let blocks = section(raw, "BLOCKS");
    let head = |r: &Record| r.kind() == "BLOCK" && r.value(2) == Some(name);
    let Some(start) = blocks.iter().position(head) else { return &[] };
    let rest = &blocks[start + 1..];
    &rest[..rest.iter().position(|r| r.kind() == "ENDBLK").unwrap_or(rest.len())]
}

/// The root dictionary, with the dictionary of groups that readers ask for.
fn objects(handles: &mut Handles) -> Vec<Record> {
    let (root, groups) = (handles.next(), handles.next());
    let dictionary = || Record::new([(0, "DICTIONARY"), (100, "AcDbDictionary"), (281, "1")]);
    vec![
        dictionary().with([(3, "ACAD_GROUP"), (350, &groups)]).owned(5, &root, NOBODY),
        dictionary().owned(5, &groups, &root),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_section_ends_at_its_own_end() {
        let raw = [
            Record::new([(0, "SECTION"), (2, "HEADER")]),
            Record::new([(9, "$LTSCALE"), (40, "1.0")]),
            Record::new([(0, "ENDSEC")]),
            Record::new([(0, "SECTION"), (2, "ENTITIES")]),
            Record::new([(0, "LINE"), (8, "axis")]),
            Record::new([(0, "ENDSEC")]),
        ];
        assert_eq!(section(&raw, "ENTITIES"), &raw[4..5]);
        assert!(section(&raw, "OBJECTS").is_empty());
    }

    #[test]
    fn layers_have_the_width_of_their_line() {
        assert_eq!(width_of(Layer::Outline.name()), 50);
        assert_eq!(width_of(Layer::Axis.name()), 25);
        assert_eq!(width_of("0"), -3);
    }
}
