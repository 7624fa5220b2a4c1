//! Binary STL: what a slicer reads. It has no unit; a section's numbers are millimetres.

use std::io::Cursor;

use super::ExportError;
use crate::mesh::Mesh;

/// Bytes before the first triangle: a header, and the count.
const HEAD: usize = 84;

/// Bytes of one triangle: normal, three corners, and two that nobody uses.
const TRIANGLE: usize = 50;

/// The bytes of a binary STL: 80 bytes of header (zero: it must not begin with "solid"), a
/// count, and 50 bytes a triangle, normals outward by the right-hand rule.
///
/// Corners are the mesh's own single-precision points, so what was audited is what is written.
/// They go straight into the one buffer of the file: the writer of `stl_io` wants a list of its own
/// triangles first, and takes twice as long. Its reader proves them: [`proven_stl`].
pub fn stl(mesh: &Mesh) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(HEAD + TRIANGLE * mesh.triangles.len());
    bytes.resize(80, 0);
    bytes.extend((mesh.triangles.len() as u32).to_le_bytes());
    for triangle in &mesh.triangles {
        bytes.extend_from_slice(&record(triangle.map(|n| mesh.points[n as usize])));
    }
    bytes
}

/// The bytes of [`stl`], once `stl_io` has read the mesh's own triangles out of them: as many, with
/// the same corners to the bit.
///
/// # Errors
/// [`ExportError::StlRead`]: it can't read them, or reads others; then they are worth nothing.
pub fn proven_stl(mesh: &Mesh) -> Result<Vec<u8>, ExportError> {
    let bytes = stl(mesh);
    prove(&bytes, mesh)?;
    Ok(bytes)
}

fn prove(bytes: &[u8], mesh: &Mesh) -> Result<(), ExportError> {
    let refused = |what: String| ExportError::StlRead { what };
    let mut cursor = Cursor::new(bytes);
    let reader = stl_io::create_stl_reader(&mut cursor).map_err(|e| refused(e.to_string()))?;
    let mut read = 0;
    for (n, triangle) in reader.enumerate() {
        let triangle = triangle.map_err(|e| refused(e.to_string()))?;
        let corners = mesh.triangles.get(n).map(|t| t.map(|n| mesh.points[n as usize]));
        let same = corners.is_some_and(|corners| {
            let bits = |p: [f32; 3]| p.map(f32::to_bits);
            corners.into_iter().zip(triangle.vertices).all(|(a, b)| bits(a) == bits(b.0))
        });
        if !same {
            return Err(refused(format!("triangle {} has other corners", n + 1)));
        }
        read = n + 1;
    }
    let count = mesh.triangles.len();
    if read == count { Ok(()) } else { Err(refused(format!("{read} triangles, not {count}"))) }
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
    use stl_io::Normal;

    fn tetrahedron() -> Mesh {
        Mesh {
            points: vec![[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
            faces: vec![0; 4],
            columns: vec![0; 4],
            angles: Vec::new(),
            chord_error: 0.0,
            sides: 0,
        }
    }

    /// Source: the layout of binary STL: 84 + 50 n bytes (a tetrahedron: 284).
    #[test]
    fn reads_back_as_it_was_written() {
        let bytes = proven_stl(&tetrahedron()).unwrap();
        assert_eq!(bytes.len(), 284);
        let read = stl_io::read_stl(&mut Cursor::new(&bytes)).unwrap();
        read.validate().unwrap();
        assert_eq!(read.faces.len(), 4);
        assert_eq!(read.faces[0].normal, Normal::new([0.0, 0.0, -1.0]));
    }

    #[test]
    fn bytes_that_say_something_else_are_not_proven() {
        let mesh = tetrahedron();
        let told = |change: fn(&mut Vec<u8>)| {
            let mut bytes = stl(&mesh);
            change(&mut bytes);
            let error = prove(&bytes, &mesh).unwrap_err();
            assert_eq!(error.code(), "export.stl-read");
            error.to_string()
        };
        assert!(told(|bytes| bytes[HEAD + TRIANGLE + 12] ^= 1).contains("triangle 2 has"));
        assert!(told(|bytes| bytes[80] = 3).contains("3 triangles, not 4"));
        assert!(told(|bytes| bytes.truncate(250)).contains("can't be read back"));
    }
}
