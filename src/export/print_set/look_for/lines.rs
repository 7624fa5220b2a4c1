//! Lines of a text for people: heads, lists, paragraphs.

/// Columns of a line: what an A4 page shows in a type that can be read at a bench.
const COLUMNS: usize = 88;

/// A head, underlined.
pub(super) fn head(words: &str) -> String {
    format!("{words}\n{}\n", "-".repeat(words.chars().count()))
}

/// Paragraphs with a dash, wrapped.
pub(super) fn list<S: AsRef<str>>(items: &[S]) -> String {
    items.iter().map(|item| wrapped("- ", "  ", item.as_ref())).collect::<String>() + "\n"
}

/// Words in lines, the first behind `first`, the others behind `rest`.
pub(super) fn wrapped(first: &str, rest: &str, words: &str) -> String {
    let (mut text, mut line) = (String::new(), first.to_owned());
    let mut begun = false;
    for word in words.split_whitespace() {
        if begun && line.chars().count() + 1 + word.chars().count() > COLUMNS {
            text += line.trim_end();
            text += "\n";
            rest.clone_into(&mut line);
            begun = false;
        }
        if begun {
            line += " ";
        }
        line += word;
        begun = true;
    }
    text + line.trim_end() + "\n"
}
