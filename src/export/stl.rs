//! Binary STL: what a slicer reads. It has no unit; a section's numbers are millimetres.

use crate::mesh::Mesh;

/// Bytes before the first triangle: a header, and the count.
const HEAD: usize = 84;

/// Bytes of one triangle: normal, three corners, and two that nobody uses.
const TRIANGLE: usize = 50;

/// The bytes of a binary STL: 80 bytes of header (zero: it must not begin with "solid"), a
/// count, and 50 bytes a triangle, normals outward by the right-hand rule.
///
/// Corners are the mesh's own single-precision points, so what was audited is what is written.
/// They go straight into the one buffer of the file; tests read it back with `stl_io`, whose
/// writer wants a list of its own triangles first, and takes twice as long.
pub fn stl(mesh: &Mesh) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(HEAD + TRIANGLE * mesh.triangles.len());
    bytes.resize(80, 0);
    bytes.extend((mesh.triangles.len() as u32).to_le_bytes());
    for triangle in &mesh.triangles {
        bytes.extend_from_slice(&record(triangle.map(|n| mesh.points[n as usize])));
    }
    bytes
}

fn record(corners: [[f32; 3]; 3]) -> [u8; TRIANGLE] {
    let [a, b, c] = corners.map(|p| p.map(f64::from));
    let (e, f) = ([b[0] - a[0], b[1] - a[1], b[2] - a[2]], [c[0] - a[0], c[1] - a[1], c[2] - a[2]]);
    let n = [e[1] * f[2] - e[2] * f[1], e[2] * f[0] - e[0] * f[2], e[0] * f[1] - e[1] * f[0]];
    let length = (n[0] * n[0] + n[1] * n[1] + n[2] * n[2]).sqrt();
    let normal = n.map(|v| (v / length) as f32 + 0.0);
    let mut record = [0; TRIANGLE];
    let (numbers, _) = record.as_chunks_mut::<4>();
    for (place, number) in
        numbers.iter_mut().zip([normal, corners[0], corners[1], corners[2]].as_flattened())
    {
        *place = number.to_le_bytes();
    }
    record
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Cursor;
    use stl_io::Normal;

    /// Source: the layout of binary STL: 84 + 50 n bytes (a tetrahedron: 284).
    #[test]
    fn reads_back_as_it_was_written() {
        let mesh = Mesh {
            points: vec![[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
            faces: vec![0; 4],
            columns: vec![0; 4],
            angles: Vec::new(),
            chord_error: 0.0,
            sides: 0,
        };
        let bytes = stl(&mesh);
        assert_eq!(bytes.len(), 284);
        let read = stl_io::read_stl(&mut Cursor::new(&bytes)).unwrap();
        read.validate().unwrap();
        assert_eq!(read.faces.len(), 4);
        assert_eq!(read.faces[0].normal, Normal::new([0.0, 0.0, -1.0]));
    }
}
