//! The layers of a drawing, named by what lies on them.

use super::LineKind;

/// A layer: a name and one kind of line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// Shaded areas.
    Band,
    /// White hatching of shaded areas.
    BandHatch,
    /// White seams that set a line off from a shaded area.
    Seam,
    /// Hatching of cut material.
    Hatch,
    /// What the part meets, drawn where it sits: the nib unit.
    Mate,
    /// The outside with front and back face: cut above the axis, seen below it.
    Outline,
    /// The wall of the bores, cut.
    Bore,
    /// The hole from the front face, where it does not meet the one from the back.
    BoreFront,
    /// The hole from the back face, where it does not meet the one from the front.
    BoreBack,
    /// Edges where the surface changes direction, seen square to the axis.
    Edge,
    /// Roots of threads.
    Thread,
    /// Ends of full-depth thread.
    ThreadEnd,
    /// Ends of full-depth thread behind the cut.
    ThreadEndHidden,
    /// The axis.
    Axis,
    /// The place that a tool at the front is set by.
    OriginFront,
    /// The place that a tool at the back is set by.
    OriginBack,
    /// What a profile says of its threads, in words.
    ThreadData,
    /// Words and the lines that lead to them.
    Note,
    /// A turned surface's line run on: over a groove in it, or out to its sharp corner.
    Extension,
    /// Dimensions.
    Dimension,
    /// Datum letters with their triangles.
    Datum,
    /// The part seen along its axis.
    EndView,
    /// Roots of threads, seen along the axis.
    EndViewThread,
    /// A part of the half-section, enlarged.
    Detail,
    /// Roots of threads, enlarged.
    DetailThread,
    /// The frame of the sheet.
    Frame,
    /// Title block, notes and tables.
    Title,
}

impl Layer {
    /// All layers, from the one that is drawn first to the one that lies over all.
    pub const ALL: [Self; 27] = [
        Self::Band,
        Self::BandHatch,
        Self::Seam,
        Self::Hatch,
        Self::Mate,
        Self::Outline,
        Self::Bore,
        Self::BoreFront,
        Self::BoreBack,
        Self::Edge,
        Self::Thread,
        Self::ThreadEnd,
        Self::ThreadEndHidden,
        Self::Axis,
        Self::OriginFront,
        Self::OriginBack,
        Self::ThreadData,
        Self::Note,
        Self::Extension,
        Self::Dimension,
        Self::Datum,
        Self::EndView,
        Self::EndViewThread,
        Self::Detail,
        Self::DetailThread,
        Self::Frame,
        Self::Title,
    ];

    /// Its name in every file.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Band => "band",
            Self::BandHatch => "band-hatch",
            Self::Seam => "seam",
            Self::Hatch => "hatch",
            Self::Mate => "mate",
            Self::Outline => "outline",
            Self::Bore => "bore",
            Self::BoreFront => "bore-front",
            Self::BoreBack => "bore-back",
            Self::Edge => "edge",
            Self::Thread => "thread",
            Self::ThreadEnd => "thread-end",
            Self::ThreadEndHidden => "thread-end-hidden",
            Self::Axis => "axis",
            Self::OriginFront => "origin-front",
            Self::OriginBack => "origin-back",
            Self::ThreadData => "thread-data",
            Self::Note => "note",
            Self::Extension => "extension",
            Self::Dimension => "dimension",
            Self::Datum => "datum",
            Self::EndView => "end-view",
            Self::EndViewThread => "end-view-thread",
            Self::Detail => "detail",
            Self::DetailThread => "detail-thread",
            Self::Frame => "frame",
            Self::Title => "title",
        }
    }

    /// Its line, after ISO 128-2:2022 and, for threads, ISO 6410-1:1993 clause 3.2 (crests and
    /// ends continuous wide, roots continuous narrow, hidden ends dashed narrow; the clause
    /// number is from memory).
    pub const fn line(self) -> LineKind {
        match self {
            Self::Outline
            | Self::Bore
            | Self::BoreFront
            | Self::BoreBack
            | Self::Edge
            | Self::ThreadEnd
            | Self::EndView
            | Self::Detail => LineKind::ContinuousWide,
            Self::Frame => LineKind::ContinuousFrame,
            Self::Seam => LineKind::ContinuousExtraWide,
            Self::Band
            | Self::BandHatch
            | Self::Hatch
            | Self::Thread
            | Self::OriginFront
            | Self::OriginBack
            | Self::ThreadData
            | Self::Note
            | Self::Extension
            | Self::Dimension
            | Self::Datum
            | Self::EndViewThread
            | Self::DetailThread
            | Self::Title => LineKind::ContinuousNarrow,
            Self::ThreadEndHidden => LineKind::DashedNarrow,
            Self::Axis => LineKind::LongDashedDotted,
            Self::Mate => LineKind::LongDashedDoubleDotted,
        }
    }

    /// The colour of its lines, as SVG and HTML write it.
    pub const fn colour(self) -> &'static str {
        match self {
            Self::BandHatch | Self::Seam => "#fff",
            _ => "#000",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Readers take names as the same whatever their case.
    #[test]
    fn names_are_different_and_in_lower_case() {
        let mut names: Vec<&str> = Layer::ALL.iter().map(|layer| layer.name()).collect();
        assert!(names.iter().all(|n| n.chars().all(|c| c.is_ascii_lowercase() || c == '-')));
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), Layer::ALL.len());
    }
}
