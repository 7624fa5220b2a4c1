//! Points that fall together in single precision, made one.

use super::Mesh;

impl Mesh {
    /// The same mesh with every place taken by one point, and without the triangles that this
    /// leaves no corner.
    ///
    /// Where a rounded flank's cut leaves its crest or root circle as a tangent does, both may
    /// pass a half-plane within what single precision tells apart; what lies between them there
    /// is thinner than any number in the file, and nothing of the skin is lost with it.
    pub(super) fn welded(&self) -> Self {
        let bits = |n: u32| self.points[n as usize].map(f32::to_bits);
        let mut order: Vec<u32> = (0..self.points.len() as u32).collect();
        order.sort_unstable_by_key(|n| (bits(*n), *n));
        let mut first: Vec<u32> = (0..self.points.len() as u32).collect();
        for group in order.chunk_by(|a, b| bits(*a) == bits(*b)) {
            for n in group {
                first[*n as usize] = group[0];
            }
        }
        // Points keep their order; those that gave way are taken out.
        let mut number = vec![0; self.points.len()];
        let mut points = Vec::with_capacity(self.points.len());
        for (n, point) in self.points.iter().enumerate() {
            if first[n] as usize == n {
                number[n] = points.len() as u32;
                points.push(*point);
            }
        }
        let (mut triangles, mut faces, mut columns) = (Vec::new(), Vec::new(), Vec::new());
        for (n, triangle) in self.triangles.iter().enumerate() {
            let [a, b, c] = triangle.map(|n| number[first[n as usize] as usize]);
            if a != b && b != c && c != a {
                triangles.push([a, b, c]);
                faces.push(self.faces[n]);
                columns.push(self.columns[n]);
            }
        }
        let angles = self.angles.clone();
        Self { points, triangles, faces, columns, angles, ..*self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A tetrahedron one of whose corners stands twice, with the sliver between both.
    #[test]
    fn a_sliver_between_two_points_of_one_place_is_gone() {
        let corner = [0.0, 0.0, 1.0];
        let mesh = Mesh {
            points: vec![[0.0; 3], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0], corner, corner],
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 4], [2, 4, 3], [0, 3, 4]],
            faces: vec![0, 1, 2, 3, 3, 3],
            columns: vec![0; 6],
            angles: vec![0.0],
            chord_error: 0.01,
            sides: 1,
        };
        let welded = mesh.welded();
        assert_eq!(welded.points.len(), 4);
        assert_eq!(welded.triangles, [[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]]);
        assert_eq!(welded.faces, [0, 1, 2, 3]);
    }
}
