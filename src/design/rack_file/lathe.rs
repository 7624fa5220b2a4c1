//! The lathe and what holds the work, as people write them.

use crate::design::reader::{Placed, Read, Reader, wrong_type};
use crate::design::tree::{Node, Value};
use crate::design::value::{Ascending, Count, Distance, Size, Sourced, Speed};
use crate::diagnostic::Diagnostic;
use crate::quantity::Length;

/// The tailstock's quill.
#[derive(Clone, Debug)]
pub(in crate::design) struct QuillFile {
    pub(in crate::design) per_turn: Placed<Size>,
    pub(in crate::design) divisions: Option<Placed<Count>>,
}

/// A lathe; what is left out has a start.
#[derive(Clone, Debug, Default)]
pub(in crate::design) struct LatheFile {
    pub(in crate::design) speeds: Option<Placed<Ascending<Speed>>>,
    pub(in crate::design) quill: Option<QuillFile>,
    pub(in crate::design) tailstock_drill: Option<Placed<Sourced<Speed>>>,
    pub(in crate::design) turning: Option<Placed<Sourced<Speed>>>,
}

/// What holds the work.
#[derive(Clone, Debug, Default)]
pub(in crate::design) struct HoldingsFile {
    pub(in crate::design) collets: Option<Placed<Collets>>,
    pub(in crate::design) closes: Option<Placed<Distance>>,
    pub(in crate::design) chuck: Option<Placed<String>>,
}

pub(super) fn lathe(reader: &mut Reader<'_>) -> LatheFile {
    LatheFile {
        speeds: reader.maybe("speeds"),
        quill: reader.table("quill", |r| QuillFile {
            per_turn: r.need("per_turn", "per_turn = 2.0"),
            divisions: r.maybe("divisions"),
        }),
        tailstock_drill: reader.maybe("tailstock_drill"),
        turning: reader.maybe("turning"),
    }
}

pub(super) fn holdings(reader: &mut Reader<'_>) -> HoldingsFile {
    HoldingsFile {
        collets: reader.maybe("collets"),
        closes: reader.maybe("closes"),
        chuck: reader.maybe("chuck"),
    }
}

/// Sizes of collets, ascending: a list, or from one to another by a step.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::design) struct Collets(pub(in crate::design) Vec<Length>);

impl Read for Collets {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        match &node.value {
            Value::List(_) => {
                let Ascending(sizes) = Ascending::<Size>::read(node, key, log)?;
                Some(Self(sizes.into_iter().map(|size| size.0).collect()))
            }
            Value::Table(table) => {
                let noted = log.len();
                let mut reader = Reader::new(table, node.at, key.to_owned(), log);
                let from: Placed<Size> = reader.need("from", "from = 2");
                let to: Placed<Size> = reader.need("to", "to = 16");
                let step: Placed<Size> = reader.need("step", "step = 1");
                reader.finish();
                if log.len() > noted {
                    return None;
                }
                stepped(&from, &to, &step, log).map(Self)
            }
            other => {
                let wanted = "a list of sizes, or from, to and step";
                log.push(
                    wrong_type(key, wanted, other.kind(), node.at)
                        .hint("write [3, 4, 5] or { from = 2, to = 16, step = 1 }"),
                );
                None
            }
        }
    }
}

/// Sizes at equal steps; none where they run backwards or are without end, which is noted.
fn stepped(
    from: &Placed<Size>,
    to: &Placed<Size>,
    step: &Placed<Size>,
    log: &mut Vec<Diagnostic>,
) -> Option<Vec<Length>> {
    /// No maker has more collets; more, and a step with a zero too many would fill the memory.
    const MOST: f64 = 200.0;
    /// Of a step: the noise of decimals divided by one another lies below.
    const NOISE: f64 = 1e-6;
    /// Of a millimetre: nine decimals hold any size that people write, without the noise of a sum.
    const DIGITS: f64 = 1e9;
    let [first, last, by] = [from, to, step].map(|size| size.value.0);
    if first > last {
        log.push(
            Diagnostic::error("value.order", format!("collets from {first} to {last} are none"))
                .at(from.at())
                .also(to.at(), "the last one")
                .hint(format!("from = {}, to = {}", last.as_mm(), first.as_mm())),
        );
        return None;
    }
    let steps = ((last - first) / by + NOISE).floor();
    if steps >= MOST {
        let message = format!("a step of {by} makes more than {MOST} collets");
        let wider = ((last - first).as_mm() / MOST).ceil().max(1.0) + 1.0;
        let error = Diagnostic::error("rack.too-many-collets", message).at(step.at());
        log.push(error.hint(format!("a wider step, such as step = {wider}")));
        return None;
    }
    let size = |n: u32| ((first + by * f64::from(n)).as_mm() * DIGITS).round() / DIGITS;
    Some((0..=steps as u32).map(|n| Length::mm(size(n))).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::reader::tests::read;

    #[test]
    fn collets_are_listed_or_stepped() {
        let sizes = |text| -> Vec<f64> {
            let collets = read::<Collets>(text).0.expect("collets");
            collets.0.into_iter().map(Length::as_mm).collect()
        };
        assert_eq!(sizes("[3, \"1/4 in\"]"), [3.0, 6.35]);
        assert_eq!(sizes("{ from = 2, to = 2.3, step = 0.1 }"), [2.0, 2.1, 2.2, 2.3]);
        assert_eq!(sizes("{ from = 2, to = 5.9, step = 2 }"), [2.0, 4.0]);
        for (text, code) in [
            ("{ from = 3, to = 2, step = 1 }", "value.order"),
            ("{ from = 2, to = 16, step = 0 }", "value.negative"),
            ("{ from = 2, to = 16, step = 1e-9 }", "rack.too-many-collets"),
            ("{ from = 2, to = 16 }", "key.missing"),
            ("[4, 3]", "value.order"),
            ("3", "value.type"),
        ] {
            let (none, said) = read::<Collets>(text);
            assert_eq!((none, said[0].code), (None, code), "{text}");
        }
    }
}
