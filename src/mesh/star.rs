//! The triangles round each point, and whether every edge lies between two of them.

use super::Mesh;

/// Directed edges without exactly one partner the other way.
///
/// Each corner of a triangle notes, at its point, the corner that follows and the one before: an
/// edge that leaves the point, and one that comes in. In a closed and oriented mesh every point is
/// left once to each neighbour, and reached once from it.
pub(super) fn open_edges(mesh: &Mesh) -> usize {
    let mut starts = vec![0_u32; mesh.points.len() + 1];
    mesh.triangles.iter().flatten().for_each(|n| starts[*n as usize + 1] += 1);
    for n in 1..starts.len() {
        starts[n] += starts[n - 1];
    }
    let mut next = starts.clone();
    let mut neighbours = vec![(0_u32, 0_u32); mesh.triangles.len() * 3];
    for [a, b, c] in &mesh.triangles {
        for (here, after, before) in [(a, b, c), (b, c, a), (c, a, b)] {
            let place = &mut next[*here as usize];
            neighbours[*place as usize] = (*after, *before);
            *place += 1;
        }
    }
    let stars = starts.windows(2).map(|pair| &neighbours[pair[0] as usize..pair[1] as usize]);
    stars.enumerate().map(|(point, star)| unpaired(point as u32, star)).sum()
}

/// Of the edges that leave a point: those that do so twice, or are not reached back just once.
fn unpaired(point: u32, star: &[(u32, u32)]) -> usize {
    let sound = |after: u32| {
        let (mut out, mut back) = (0, 0);
        for (a, b) in star {
            out += u32::from(*a == after);
            back += u32::from(*b == after);
        }
        out == 1 && back == 1 && after != point
    };
    star.iter().filter(|(after, _)| !sound(*after)).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A tetrahedron: six edges, twelve ways.
    fn tetrahedron() -> Mesh {
        Mesh {
            points: vec![[0.0; 3]; 4],
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
            faces: vec![0; 4],
            columns: vec![0; 4],
            start: 0.0,
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
        assert_eq!(broken(|t| drop(t.pop())), 3, "a hole");
        assert_eq!(broken(|t| t.push([0, 1, 3])), 6, "a flap: three edges leave twice");
        assert_eq!(broken(|t| t[0].reverse()), 6, "a triangle turned over");
        assert!(broken(|t| t.push([0, 0, 1])) > 0, "an edge from a point to itself");
    }
}
