//! A design's values as written, with others laid over them.
//!
//! ```text
//!   files -> trees of values                 (load, tree)
//!   size and value -> keys with numbers      (write)
//!   laid over the trees -> read and resolved (here), as when they are written into the files
//! ```
//! What the files leave out is derived anew, so that a hole that ends where another one begins
//! goes with it. Where one size is to move alone, see [`crate::section::Section::with`].

use super::design_file::DesignFile;
use super::load::Document;
use super::maker_file::MakerFile;
use super::material_file::MaterialFile;
use super::reader::Reader;
use super::resolve::{self, Making};
use super::tree::Table;
use super::unit_file::UnitFile;
use super::write::{InFile, Write, writes};
use crate::diagnostic::{Diagnostic, Place, Severity};
use crate::section::Section;
use crate::size::SizeId;

/// A design and all that it asks for, as written.
#[derive(Clone, Debug)]
pub struct Values {
    pub(super) design: Document,
    pub(super) unit: Document,
    pub(super) typed: Option<Document>,
    pub(super) files: Files,
}

/// The same, read.
#[derive(Clone, Debug)]
pub(super) struct Files {
    pub(super) design: DesignFile,
    pub(super) unit: UnitFile,
    pub(super) material: MaterialFile,
    pub(super) maker: MakerFile,
}

/// A number that is written.
pub(super) struct Number {
    pub(super) file: InFile,
    /// Tables and key joined by dots, of lists the number from 1.
    pub(super) key: String,
    pub(super) value: f64,
    pub(super) at: Place,
}

/// How a value comes about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// A file says it.
    Written,
    /// No file says it: it follows from what is said.
    Derived,
}

impl Values {
    /// What to write so that a size has a value, by the keys of the design's or the unit's file:
    /// one key, or several where several say the same place. None where no key says it, or the
    /// section, which is this design's, has no such size.
    pub fn writes(&self, section: &Section, size: SizeId, value: f64) -> Option<Vec<Write>> {
        writes(self, section, size, value)
    }

    /// Whether a size is written; none where no key says it.
    pub fn origin(&self, section: &Section, size: SizeId) -> Option<Origin> {
        let writes = self.writes(section, size, size.get(section)?)?;
        let is_there = |write: &Write| self.table(write.file).at(&write.key).is_some();
        let written = writes.iter().any(is_there);
        Some(if written { Origin::Written } else { Origin::Derived })
    }

    /// Where a size is written; one that is derived, where the nearest of its tables is, or else the
    /// file in which it would be.
    pub fn place(&self, section: &Section, size: SizeId) -> Place {
        let value = size.get(section);
        let writes = value.and_then(|value| self.writes(section, size, value)).unwrap_or_default();
        let places = writes.iter().filter_map(|write| self.table(write.file).nearest(&write.key));
        let deepest = places.reduce(|best, place| if place.0 > best.0 { place } else { best });
        let file = writes.first().map_or(InFile::Design, |write| write.file);
        deepest.map_or_else(|| self.document(file).start(), |(_, at)| at)
    }

    /// The start of the design's file.
    pub(super) fn start(&self) -> Place {
        self.design.start()
    }

    /// Every number that is written, by its key.
    pub(super) fn numbers(&self) -> Vec<Number> {
        let mut all = Vec::new();
        for file in [InFile::Design, InFile::Unit] {
            let found = self.table(file).numbers();
            all.extend(found.into_iter().map(|(key, value, at)| Number { file, key, value, at }));
        }
        all
    }

    /// The section with some sizes at other values, everything else as written, and what follows
    /// from it derived anew: to the bit what the files give with these values in them.
    ///
    /// `section` is the one that this design gives as it is.
    ///
    /// # Errors
    /// Everything that is wrong then; nothing where a size can't be written.
    pub fn with(
        &self,
        section: &Section,
        changes: &[(SizeId, f64)],
    ) -> Result<Section, Vec<Diagnostic>> {
        let mut all = Vec::new();
        for (size, value) in changes {
            all.extend(self.writes(section, *size, *value).ok_or_else(Vec::new)?);
        }
        self.with_writes(&all)
    }

    /// The section with some numbers written, everything else as written.
    ///
    /// # Errors
    /// Everything that is wrong then.
    pub(super) fn with_writes(&self, writes: &[Write]) -> Result<Section, Vec<Diagnostic>> {
        let mut changed = Changed::default();
        for Write { file, key, value, .. } in writes {
            let at = self.document(*file).start();
            changed.table(self, *file).put(key, *value, at);
        }
        let mut log = Vec::new();
        let design =
            changed.design.map(|table| read(&self.design, &table, &mut log, DesignFile::read));
        let unit = changed.unit.map(|table| read(&self.unit, &table, &mut log, UnitFile::read));
        let design = design.as_ref().unwrap_or(&self.files.design);
        let unit = unit.as_ref().unwrap_or(&self.files.unit);
        if log.iter().any(|diagnostic| diagnostic.severity == Severity::Error) {
            return Err(log);
        }
        let mut making = Making::default();
        self.solve(design, unit, &mut making).ok_or(making.log)
    }

    /// The section of a design and a unit, all else as written.
    pub(super) fn solve(
        &self,
        design: &DesignFile,
        unit: &UnitFile,
        making: &mut Making,
    ) -> Option<Section> {
        let Files { material, maker, .. } = &self.files;
        let origins = self.origins();
        resolve::resolve(design, &origins, unit, material, maker, making)
    }

    /// Which files say what.
    pub(super) fn origins(&self) -> resolve::criteria::Origins<'_> {
        let typed = self.typed.as_ref();
        resolve::criteria::Origins { design: &self.design, command_line: typed }
    }

    /// A key with its number, and where it has to be written.
    pub(super) fn write_in(&self, file: InFile, key: String, value: f64) -> Write {
        let (own, table) = (self.document(file).source(), self.table(file));
        let inherited = table.list_at(&key).is_some_and(|at| at.source != own);
        // Over a reading of a file that this one is like its value alone, so that the rest stays.
        let reading = format!("{key}.value");
        let over_reading = !inherited && table.place(&reading).is_some_and(|at| at.source != own);
        Write { file, key: if over_reading { reading } else { key }, value, inherited }
    }

    /// The tree of a file.
    pub(super) fn table(&self, file: InFile) -> &Table {
        self.document(file).tree()
    }

    fn document(&self, file: InFile) -> &Document {
        match file {
            InFile::Design => &self.design,
            InFile::Unit => &self.unit,
        }
    }
}

/// Trees that are no longer as written.
#[derive(Default)]
struct Changed {
    design: Option<Table>,
    unit: Option<Table>,
}

impl Changed {
    fn table(&mut self, of: &Values, file: InFile) -> &mut Table {
        let own = match file {
            InFile::Design => &mut self.design,
            InFile::Unit => &mut self.unit,
        };
        own.get_or_insert_with(|| of.table(file).clone())
    }
}

fn read<T>(
    document: &Document,
    table: &Table,
    log: &mut Vec<Diagnostic>,
    read: impl FnOnce(&mut Reader<'_>) -> T,
) -> T {
    let mut reader = Reader::new(table, document.start(), String::new(), log);
    read(&mut reader)
}
