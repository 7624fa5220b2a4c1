//! Diagnostics as text, with the lines they point at.

use annotate_snippets::{Annotation, AnnotationKind, Group, Level, Renderer, Snippet};

use super::{Diagnostic, Place, Severity, SourceId, Sources};

/// Whether the text carries colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// Characters only: a pipe, a file, a test.
    Plain,
    /// ANSI escapes.
    Coloured,
}

/// All diagnostics, in the order of the files and of the places in them; those without a place
/// come first. Each ends with a line break and an empty line parts them.
pub fn render(diagnostics: &[Diagnostic], sources: &Sources, style: Style) -> String {
    let renderer = match style {
        Style::Plain => Renderer::plain(),
        Style::Coloured => Renderer::styled(),
    };
    let mut ordered: Vec<&Diagnostic> = diagnostics.iter().collect();
    ordered.sort_by_key(|diagnostic| diagnostic.at);
    let texts = ordered.iter().map(|d| renderer.render(&[group(d, sources)]) + "\n");
    texts.collect::<Vec<_>>().join("\n")
}

fn group<'a>(diagnostic: &'a Diagnostic, sources: &'a Sources) -> Group<'a> {
    let level = match diagnostic.severity {
        Severity::Error => Level::ERROR,
        Severity::Note => Level::NOTE,
    };
    let mut group = level.primary_title(&diagnostic.message).id(diagnostic.code).elements(
        files(diagnostic).into_iter().map(|file| {
            let source = sources.get(file);
            Snippet::source(&source.text)
                .path(&source.name)
                .annotations(annotations(diagnostic, file, sources))
        }),
    );
    if let Some(hint) = &diagnostic.hint {
        group = group.element(Level::HELP.message(hint));
    }
    group
}

/// The texts that a diagnostic points into, that of its own place first.
fn files(diagnostic: &Diagnostic) -> Vec<SourceId> {
    let mut files: Vec<SourceId> = Vec::new();
    for place in diagnostic.at.iter().chain(diagnostic.also.iter().map(|also| &also.at)) {
        if !files.contains(&place.source) {
            files.push(place.source);
        }
    }
    files
}

fn annotations<'a>(
    diagnostic: &'a Diagnostic,
    file: SourceId,
    sources: &Sources,
) -> Vec<Annotation<'a>> {
    let here = |place: &Place| (place.source == file).then(|| sources.span(*place));
    let first = diagnostic.at.iter().filter_map(here).map(|s| AnnotationKind::Primary.span(s));
    let others = diagnostic.also.iter().filter_map(|also| {
        here(&also.at).map(|s| AnnotationKind::Context.span(s).label(&also.label))
    });
    first.chain(others).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn file_order_and_both_places() {
        let mut sources = Sources::default();
        let pen = sources.add("pen.toml", "a = 1\nb = 2\n");
        let unit = sources.add("unit.toml", "c = 3\n");
        let later = Diagnostic::error("x.later", "b is wrong")
            .at(Place::new(pen, 10..11))
            .also(Place::new(unit, 4..5), "c is here")
            .hint("write 3");
        let first = Diagnostic::note("x.first", "a is odd").at(Place::new(pen, 4..5));
        let text = render(&[later, first], &sources, Style::Plain);
        let expected = "\
note[x.first]: a is odd
 --> pen.toml:1:5
  |
1 | a = 1
  |     ^

error[x.later]: b is wrong
 --> pen.toml:2:5
  |
2 | b = 2
  |     ^
  |
 ::: unit.toml:1:5
  |
1 | c = 3
  |     - c is here
  |
  = help: write 3
";
        assert_eq!(text, expected);
        assert!(render(&[], &sources, Style::Plain).is_empty());
    }

    #[test]
    fn colours_only_when_asked() {
        let alone = [Diagnostic::error("x.alone", "no place")];
        let sources = Sources::default();
        assert_eq!(render(&alone, &sources, Style::Plain), "error[x.alone]: no place\n");
        assert!(render(&alone, &sources, Style::Coloured).contains("\u{1b}["));
    }
}
