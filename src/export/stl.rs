//! Binary STL: what a slicer reads. It has no unit; a section's numbers are millimetres.

use std::io::Cursor;

use stl_io::{Normal, Triangle, Vertex, write_stl};

use crate::mesh::Mesh;

/// The bytes of a binary STL: 80 bytes of header (zero: it must not begin with "solid"), a
/// count, and 50 bytes a triangle, normals outward by the right-hand rule.
///
/// Corners are the mesh's own single-precision points, so what was audited is what is written.
#[expect(clippy::missing_panics_doc, reason = "writing to memory does not fail")]
pub fn stl(mesh: &Mesh) -> Vec<u8> {
    let triangles: Vec<Triangle> = mesh.triangles.iter().map(|t| triangle(mesh, *t)).collect();
    let mut bytes = Cursor::new(Vec::with_capacity(84 + 50 * triangles.len()));
    write_stl(&mut bytes, triangles.iter()).expect("writing to memory does not fail");
    bytes.into_inner()
}

fn triangle(mesh: &Mesh, corners: [u32; 3]) -> Triangle {
    let corners = corners.map(|n| mesh.points[n as usize]);
    let [a, b, c] = corners.map(|p| p.map(f64::from));
    let (e, f) = ([b[0] - a[0], b[1] - a[1], b[2] - a[2]], [c[0] - a[0], c[1] - a[1], c[2] - a[2]]);
    let n = [e[1] * f[2] - e[2] * f[1], e[2] * f[0] - e[0] * f[2], e[0] * f[1] - e[1] * f[0]];
    let length = (n[0] * n[0] + n[1] * n[1] + n[2] * n[2]).sqrt();
    Triangle {
        normal: Normal::new(n.map(|v| (v / length) as f32 + 0.0)),
        vertices: corners.map(Vertex::new),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the layout of binary STL: 84 + 50 n bytes (a tetrahedron: 284).
    #[test]
    fn reads_back_as_it_was_written() {
        let mesh = Mesh {
            points: vec![[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
            faces: vec![0; 4],
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
