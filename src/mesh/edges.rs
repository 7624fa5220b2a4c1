//! Whether every edge lies between two triangles that agree on its direction.

use super::Mesh;

/// Edges that are not walked just once each way.
///
/// Each edge is noted at its lower point: the higher one, and which way it is walked. The few notes
/// of a point are sorted; in a closed and oriented mesh they come in twos.
pub(super) fn open_edges(mesh: &Mesh) -> usize {
    let edges = || mesh.triangles.iter().flat_map(|[a, b, c]| [(*a, *b), (*b, *c), (*c, *a)]);
    let mut starts = vec![0_u32; mesh.points.len() + 1];
    edges().for_each(|(from, to)| starts[from.min(to) as usize + 1] += 1);
    for n in 1..starts.len() {
        starts[n] += starts[n - 1];
    }
    let mut next = starts.clone();
    let mut notes = vec![0_u32; mesh.triangles.len() * 3];
    for (from, to) in edges() {
        let place = &mut next[from.min(to) as usize];
        notes[*place as usize] = from.max(to) * 2 + u32::from(from < to);
        *place += 1;
    }
    let mut open = 0;
    for (point, at) in starts.windows(2).enumerate() {
        let notes = &mut notes[at[0] as usize..at[1] as usize];
        notes.sort_unstable();
        let edges = notes.chunk_by(|a, b| a / 2 == b / 2);
        let sound =
            |ways: &[u32]| ways.len() == 2 && ways[0] != ways[1] && ways[0] / 2 != point as u32;
        open += edges.filter(|ways| !sound(ways)).count();
    }
    open
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A tetrahedron: six edges.
    fn tetrahedron() -> Mesh {
        Mesh {
            points: vec![[0.0; 3]; 4],
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
            faces: vec![0; 4],
            columns: vec![0; 4],
            angles: vec![0.0],
            chord_error: 0.0,
            sides: 0,
        }
    }

    #[test]
    fn a_closed_skin_has_none() {
        assert_eq!(open_edges(&tetrahedron()), 0);
    }

    #[test]
    fn a_hole_a_flap_a_flip_and_a_sliver_have_some() {
        let broken = |change: fn(&mut Vec<[u32; 3]>)| {
            let mut mesh = tetrahedron();
            change(&mut mesh.triangles);
            open_edges(&mesh)
        };
        assert_eq!(broken(|t| t.truncate(3)), 3, "a hole");
        assert_eq!(broken(|t| t.push([0, 1, 3])), 3, "a flap");
        assert_eq!(broken(|t| t[0].reverse()), 3, "a triangle turned over");
        assert!(broken(|t| t.push([0, 0, 1])) > 0, "an edge from a point to itself");
    }
}
