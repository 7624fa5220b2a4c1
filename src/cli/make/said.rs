//! What `make` says of the files.

use crate::check::Chord;
use crate::drawing::CAUTION;
use crate::export::Meshed;
use crate::job::make::Made;

/// Which files were written, which stay and which went, and how near the triangles are.
pub(super) fn said(made: &Made) -> String {
    let Made { folder, order, standing, products, .. } = made;
    let list = |names: &[String]| -> String {
        let lines = names.iter().map(|name| format!("  {}", folder.join(name).display()));
        lines.collect::<Vec<_>>().join("\n") + "\n"
    };
    let about = triangles(&products.meshes);
    let mut text = format!("\nWritten{about}:\n{}", list(&order.names()));
    if !standing.files.is_empty() {
        let names: Vec<String> = standing.files.iter().map(|file| file.name.clone()).collect();
        text += &format!("Still true from an earlier run:\n{}", list(&names));
    }
    if !standing.gone.is_empty() {
        text += &format!("Removed, not of the design as it is now:\n{}", list(&standing.gone));
    }
    text + "\n" + CAUTION + "\n"
}

/// How many there are, how far they stray, and each chord that was tightened with its reason.
fn triangles(meshes: &[(String, Meshed)]) -> String {
    if meshes.is_empty() {
        return String::new();
    }
    let count: usize = meshes.iter().map(|(_, meshed)| meshed.mesh.triangles.len()).sum();
    let strays = meshes.iter().map(|(_, meshed)| meshed.mesh.chord_error).fold(0.0, f64::max);
    let tightened = meshes.iter().filter_map(|(name, meshed)| tightened(name, &meshed.chord));
    let tightened: String = tightened.collect();
    format!(
        " ({count} flat triangles, none farther than {strays:.4} mm from the true surface{tightened})"
    )
}

fn tightened(name: &str, chord: &Chord) -> Option<String> {
    let Chord { asked, in_force, tightened_by } = chord;
    let thin = tightened_by.as_ref()?;
    let (feature, size) = (&thin.feature, thin.size);
    Some(format!(
        "; {name}: {asked} mm was asked for, {in_force:.4} mm is used, since the {feature} is \
         {size:.3} mm"
    ))
}
