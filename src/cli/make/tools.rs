//! What was chosen for each hole, as a maker reads it.

use crate::diagnostic::{Style, Tone, paint};
use crate::shop::Plan;
use crate::shop::choose::{Choice, Taken};

/// A line for each hole with the tool for it, and under it what its neighbours would cost.
pub(super) fn tools(plan: &Plan, style: Style) -> String {
    let title = format!("Tools for the holes, from the rack {:?}", plan.workshop.name);
    let rows: String = plan.choices.iter().map(|choice| row(choice, style)).collect();
    format!("\n{}\n{rows}", paint(&title, Tone::Strong, style))
}

fn row(choice: &Choice, style: Style) -> String {
    let (wanted, becomes) = (choice.wanted.as_mm(), choice.becomes.as_mm());
    let tool = match &choice.taken {
        Taken::Tool(tool) => format!("{tool}, leaves {becomes:.2}"),
        Taken::ByHand(how) => (*how).to_owned(),
        Taken::Buy(drill) => {
            let buy = drill.map_or(String::new(), |drill| format!("buy a drill {drill}, or "));
            let words = format!("nothing at hand serves: {buy}bore it to {wanted:.2}");
            paint(&words, Tone::Watch, style)
        }
    };
    let mut text = format!("  {:<18} {wanted:>6.2}   {tool}\n", choice.item.to_string());
    for line in
        choice.runners_up.iter().filter_map(|other| other.said(|length| format!("{length:.2}")))
    {
        text += &format!("  {:<18} {:>6}   not {line}\n", "", "");
    }
    for other in &choice.mistaken {
        let words = format!("{} is not {}", other.size, other.is_not);
        text += &format!("  {:<18} {:>6}   {}\n", "", "", paint(&words, Tone::Watch, style));
    }
    text
}
