//! Triangles that pass through each other.

use super::Mesh;
use super::contact::cross;
use super::parting::{Corners, parted};
use super::patch::{Columns, Patch, corners};

/// What is wrong with the triangles' places.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Misplaced {
    /// A triangle reaches out of its column, so the test would not hold.
    Beside,
    /// Two triangles cross, or touch beside their common corners: one of their corners.
    Crossing([f32; 3]),
}

/// The first pair of triangles found that cross, or touch beside their common corners.
///
/// Every triangle is seen to lie in its column, a wedge between two half-planes. So it can only
/// meet those of its own column and of the next ones; from two columns farther apart only in a
/// corner on the axis. Pairs are found by sweeping each column, and each two neighbours, along z,
/// with the reach along their common half-plane; most are parted by a plane, and the others
/// decided with exact predicates, so the answer holds for the points as stored.
pub(super) fn first_crossing(mesh: &Mesh) -> Result<(), Misplaced> {
    let columns = Columns::new(mesh).ok_or(Misplaced::Beside)?;
    let largest = mesh.points.iter().flatten().fold(0.0_f32, |most, v| most.max(v.abs()));
    let test = Test { mesh, reach: 4.0 * f64::from(largest) };
    let list = |column, patches: &mut Vec<Patch>| {
        columns.patches(column, patches).ok_or(Misplaced::Beside)
    };
    // Only two columns are held at a time, so that they stay near the processor.
    let (mut before, mut here) = (Vec::new(), Vec::new());
    list(columns.count() - 1, &mut before)?;
    for column in 0..columns.count() {
        list(column, &mut here)?;
        test.within(&here)?;
        test.between(&before, &here)?;
        std::mem::swap(&mut before, &mut here);
    }
    Ok(())
}

struct Test<'a> {
    mesh: &'a Mesh,
    /// No two points are farther apart along an axis.
    reach: f64,
}

impl Test<'_> {
    /// Each pair of one column.
    fn within(&self, patches: &[Patch]) -> Result<(), Misplaced> {
        for (n, a) in patches.iter().enumerate() {
            if a.paired && !a.open(self.mesh) {
                self.exact(a.first as usize, a.first as usize + 1)?;
            }
            for b in patches[n + 1..].iter().take_while(|b| b.z[0] <= a.z[1]) {
                if overlap(a.near, b.near) {
                    self.pair(a, b)?;
                }
            }
        }
        Ok(())
    }

    /// Each pair of two columns, the second one behind the first.
    fn between(&self, first: &[Patch], second: &[Patch]) -> Result<(), Misplaced> {
        let (mut i, mut j) = (0, 0);
        while i < first.len() && j < second.len() {
            if first[i].z[0] <= second[j].z[0] {
                let a = &first[i];
                for b in second[j..].iter().take_while(|b| b.z[0] <= a.z[1]) {
                    if overlap(a.far, b.near) {
                        self.pair(a, b)?;
                    }
                }
                i += 1;
            } else {
                let b = &second[j];
                for a in first[i..].iter().take_while(|a| a.z[0] <= b.z[1]) {
                    if overlap(a.far, b.near) {
                        self.pair(a, b)?;
                    }
                }
                j += 1;
            }
        }
        Ok(())
    }

    fn pair(&self, a: &Patch, b: &Patch) -> Result<(), Misplaced> {
        if parted(&a.corners, &b.corners, self.reach) {
            return Ok(());
        }
        for t in a.triangles() {
            for u in b.triangles() {
                if !parted(&self.alone(t), &self.alone(u), self.reach) {
                    self.exact(t, u)?;
                }
            }
        }
        Ok(())
    }

    fn alone(&self, triangle: usize) -> Corners {
        let [a, b, c] = self.mesh.triangles[triangle];
        Corners::new([a, b, c, c], &self.mesh.points)
    }

    fn exact(&self, t: usize, u: usize) -> Result<(), Misplaced> {
        let indices = [self.mesh.triangles[t], self.mesh.triangles[u]];
        if cross(indices, [&corners(self.mesh, t), &corners(self.mesh, u)]) {
            return Err(Misplaced::Crossing(self.mesh.points[indices[0][0] as usize]));
        }
        Ok(())
    }
}

fn overlap(a: [f64; 2], b: [f64; 2]) -> bool {
    a[0] <= b[1] && b[0] <= a[1]
}
