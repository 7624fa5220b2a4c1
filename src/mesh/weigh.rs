//! A second opinion on a mesh, by a library that shares no line with [`super::audit`].

use truck_meshalgo::prelude::{CalcVolume, Topology};
use truck_topology::shell::ShellCondition;

use super::{Audit, Mesh, MeshError};

/// How far two sums of the same triangles' volumes may differ by rounding, as a share of the
/// volume. Smaller, and a mesh of millions of triangles would be refused for its rounding; larger,
/// and a lost triangle of a thread, about 1e-6 of a section, could hide in it.
const ROUNDING: f64 = 1e-8;

/// The volume of a mesh in cubic millimetres, as truck's analyzers find it, if they agree with our
/// audit: it is closed, every edge lies between two triangles that are turned alike, and they face
/// outwards round the same volume. Takes time in proportion to the triangles.
///
/// # Errors
/// [`MeshError::Disputed`]: the two disagree; then one of them is wrong, and nothing is written.
pub fn weigh(mesh: &Mesh, audit: &Audit) -> Result<f64, MeshError> {
    let truck = mesh.to_truck();
    let condition = truck.shell_condition();
    if condition != ShellCondition::Closed {
        return Err(MeshError::Disputed { finds: format!("it {condition:?}, not closed") });
    }
    let volume = truck.volume();
    if (volume - audit.volume).abs() <= ROUNDING * audit.volume {
        return Ok(volume);
    }
    let finds = format!("its volume {volume} mm3, not {} mm3", audit.volume);
    Err(MeshError::Disputed { finds })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A tetrahedron on three unit legs: its volume is a sixth.
    fn tetrahedron() -> Mesh {
        Mesh {
            points: vec![[0.0; 3], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
            faces: vec![0; 4],
            columns: vec![0; 4],
            angles: vec![0.0],
            chord_error: 0.0,
            sides: 1,
        }
    }

    fn told(mesh: &Mesh, volume: f64) -> String {
        let error = weigh(mesh, &Audit { volume, genus: 0 }).unwrap_err();
        assert_eq!(error.code(), "mesh.disputed");
        error.to_string()
    }

    #[test]
    fn a_sound_mesh_weighs_what_the_audit_says() {
        let volume = weigh(&tetrahedron(), &Audit { volume: 1.0 / 6.0, genus: 0 }).unwrap();
        assert!((volume - 1.0 / 6.0).abs() < 1e-15);
    }

    #[test]
    fn each_fault_that_an_audit_could_miss_is_disputed() {
        let mut hole = tetrahedron();
        hole.triangles.pop();
        assert!(told(&hole, 1.0 / 6.0).contains("Oriented"));
        let mut turned = tetrahedron();
        turned.triangles[0].reverse();
        assert!(told(&turned, 1.0 / 6.0).contains("Regular"));
        let mut inside_out = tetrahedron();
        inside_out.triangles.iter_mut().for_each(|corners| corners.reverse());
        assert!(told(&inside_out, 1.0 / 6.0).contains("-0.1666"));
        assert!(told(&tetrahedron(), 0.1667).contains("0.1667"));
    }
}
