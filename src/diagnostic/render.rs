//! Diagnostics as text, with the lines they point at.

use annotate_snippets::{Annotation, AnnotationKind, Group, Level, Renderer, Snippet};

use super::escape::{Excerpt, escaped};
use super::{Also, Diagnostic, Place, Severity, SourceId, Sources};

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
///
/// No name and no text commands the terminal ([`escaped`]).
pub fn render(diagnostics: &[Diagnostic], sources: &Sources, style: Style) -> String {
    let renderer = match style {
        Style::Plain => Renderer::plain(),
        Style::Coloured => Renderer::styled(),
    };
    let mut ordered: Vec<&Diagnostic> = diagnostics.iter().collect();
    ordered.sort_by_key(|diagnostic| diagnostic.at);
    let texts = ordered.iter().map(|diagnostic| {
        let shown = Shown::new(diagnostic, sources);
        renderer.render(&[shown.group()]) + "\n"
    });
    texts.collect::<Vec<_>>().join("\n")
}

/// A diagnostic with the files that it points into, all in characters that can be shown.
struct Shown<'a> {
    diagnostic: Diagnostic,
    sources: &'a Sources,
    /// The texts that it points into with their names, that of its own place first.
    files: Vec<(SourceId, String, Excerpt)>,
}

impl<'a> Shown<'a> {
    fn new(diagnostic: &Diagnostic, sources: &'a Sources) -> Self {
        let also = |also: &Also| Also { at: also.at, label: escaped(&also.label).into_owned() };
        let diagnostic = Diagnostic {
            message: escaped(&diagnostic.message).into_owned(),
            also: diagnostic.also.iter().map(also).collect(),
            hint: diagnostic.hint.as_deref().map(|hint| escaped(hint).into_owned()),
            ..*diagnostic
        };
        let file = |id: SourceId| {
            let source = sources.get(id);
            (id, escaped(&source.name).into_owned(), Excerpt::new(&source.text))
        };
        let files = files(&diagnostic).into_iter().map(file).collect();
        Self { diagnostic, sources, files }
    }

    fn group(&self) -> Group<'_> {
        let diagnostic = &self.diagnostic;
        let level = match diagnostic.severity {
            Severity::Error => Level::ERROR,
            Severity::Note => Level::NOTE,
        };
        let snippets = self.files.iter().map(|(file, name, excerpt)| {
            let annotations = self.annotations(*file, excerpt);
            Snippet::source(&excerpt.text).path(name).annotations(annotations)
        });
        let title = level.primary_title(&diagnostic.message).id(diagnostic.code);
        let mut group = title.elements(snippets);
        if let Some(hint) = &diagnostic.hint {
            group = group.element(Level::HELP.message(hint));
        }
        group
    }

    fn annotations(&self, file: SourceId, excerpt: &Excerpt) -> Vec<Annotation<'_>> {
        let here =
            |place: &Place| (place.source == file).then(|| excerpt.span(self.sources.span(*place)));
        let first =
            self.diagnostic.at.iter().filter_map(here).map(|s| AnnotationKind::Primary.span(s));
        let others = self.diagnostic.also.iter().filter_map(|also| {
            here(&also.at).map(|s| AnnotationKind::Context.span(s).label(&also.label))
        });
        first.chain(others).collect()
    }
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

    /// A stranger's name and text say what they say, and command nothing.
    #[test]
    fn no_name_and_no_text_commands_the_terminal() {
        let hostile = "\u{1b}]0;x\u{7}\u{9b}2J\u{202e}\u{2066}\u{7f}\r";
        let text = format!("a = \"{hostile}\"\nb = 2 # {hostile}\nc{hostile} = 3\n");
        let mut sources = Sources::default();
        let id = sources.add(format!("{hostile}.toml"), text.as_str());
        let at = |word: &str| {
            let start = text.find(word).unwrap();
            Place::new(id, start..start + word.len())
        };
        let told = Diagnostic::error("x.hostile", format!("no {hostile}"))
            .at(at("= 3"))
            .also(at("2 #"), format!("see {hostile}"))
            .hint(format!("write {hostile}\n"));
        for style in [Style::Plain, Style::Coloured] {
            let said = render(std::slice::from_ref(&told), &sources, style);
            let colours = said.replace("\u{1b}[", "");
            let left = if style == Style::Coloured { &colours } else { &said };
            assert!(
                left.chars().all(|c| c == '\n' || escaped(&c.to_string()).len() == c.len_utf8())
            );
        }
        // Line and column are the file's, and the marks lie under what they mark.
        let said = render(&[told], &sources, Style::Plain);
        let lines: Vec<&str> = said.lines().collect();
        let (n, line) = lines.iter().enumerate().find(|(_, l)| l.contains("= 3")).unwrap();
        let column = |line: &str, what: &str| line[..line.find(what).unwrap()].chars().count();
        assert_eq!(column(line, "= 3"), column(lines[n + 1], "^^^"), "{said}");
        assert!(said.contains(".toml:3:"), "{said}");
    }

    #[test]
    fn colours_only_when_asked() {
        let alone = [Diagnostic::error("x.alone", "no place")];
        let sources = Sources::default();
        assert_eq!(render(&alone, &sources, Style::Plain), "error[x.alone]: no place\n");
        assert!(render(&alone, &sources, Style::Coloured).contains("\u{1b}["));
    }
}
