//! The exact solid against closed forms, an independent kernel, and independent quadrature.

mod common;

use common::{basic_thread, chain, mm, r1};
use sectionwright::mesh::tessellate;
use sectionwright::section::{Item, Part, RunOut, Side};
use sectionwright::solid::{Body, build};
use sectionwright::standard::iso68;

/// Source: computed by an independent boundary-representation kernel (OCCT 8.0, one-turn
/// helicoid faces) and by closed forms: 1264.605798 mm3, 2170.634868 mm2, z 16.735077.
#[test]
fn r1_measures() {
    let body = build(&r1()).unwrap();
    let m = body.measures();
    println!("{m:?}");
    assert!((m.volume / 1_264.605_798 - 1.0).abs() < 1e-8, "{}", m.volume);
    assert!((m.area / 2_170.634_868 - 1.0).abs() < 1e-8, "{}", m.area);
    assert!((m.centroid[2] / 16.735_077 - 1.0).abs() < 1e-7, "{}", m.centroid[2]);
    assert!((m.centroid[0] - 0.000_914_4).abs() < 1e-7, "{}", m.centroid[0]);
    assert!((m.centroid[1] - 0.001_660_5).abs() < 1e-7, "{}", m.centroid[1]);
    assert_eq!(body.genus(), 1);
}

/// The same part through its design file.
#[test]
fn r1_from_its_file() {
    let library = sectionwright::design::Library::new(vec![]);
    let resolved = sectionwright::design::load(&library, "tests/fixtures/r1.toml").unwrap();
    let part = resolved.section.part();
    assert_eq!(sectionwright::section::faults(&resolved.section), []);
    let (from_file, by_hand) = (build(&part).unwrap().measures(), build(&r1()).unwrap().measures());
    assert!((from_file.volume / by_hand.volume - 1.0).abs() < 1e-12);
    assert!((from_file.area / by_hand.area - 1.0).abs() < 1e-12);
    assert!((from_file.centroid[0] - by_hand.centroid[0]).abs() < 1e-9);
}

/// Second moments of a mesh about the origin, by its tetrahedra with the origin.
fn mesh_inertia_about(body: &Body, centre: [f64; 3]) -> [f64; 3] {
    let (mesh, _) = tessellate(body, 0.002).unwrap();
    let mut squares = [0.0; 3];
    for triangle in &mesh.triangles {
        let [a, b, c] = triangle.map(|n| {
            let p = mesh.points[n as usize].map(f64::from);
            [p[0] - centre[0], p[1] - centre[1], p[2] - centre[2]]
        });
        let six = a[0] * (b[1] * c[2] - b[2] * c[1])
            + a[1] * (b[2] * c[0] - b[0] * c[2])
            + a[2] * (b[0] * c[1] - b[1] * c[0]);
        for (k, square) in squares.iter_mut().enumerate() {
            // Of x^2 over a tetrahedron with one corner at the origin.
            let (x, y, z) = (a[k], b[k], c[k]);
            *square += six / 60.0 * (x * x + y * y + z * z + x * y + y * z + z * x);
        }
    }
    let [x, y, z] = squares;
    [y + z, x + z, x + y]
}

/// Source: the moments of a hollow cylinder, V (R^2 + r^2) / 2 about its axis and
/// V (3 (R^2 + r^2) + h^2) / 12 across it (any handbook; from memory).
#[test]
fn a_tube_has_the_handbooks_inertia() {
    let runs = chain(&[(10.0, 0.0), (10.0, 30.0)], &[(6.0, 30.0), (6.0, 0.0)]);
    let m = build(&Part { runs, threads: vec![] }).unwrap().measures();
    let (squares, height): (f64, f64) = (5.0_f64 * 5.0 + 3.0 * 3.0, 30.0);
    let (along, across) = (squares / 2.0, (3.0 * squares + height * height) / 12.0);
    for (n, expected) in [across, across, along].into_iter().enumerate() {
        assert!((m.inertia[n][n] / (m.volume * expected) - 1.0).abs() < 1e-12, "{:?}", m.inertia);
    }
    assert!(m.inertia[0][1].abs() < 1e-9 && m.inertia[0][2].abs() < 1e-9);
}

/// Independent route: the mesh's own moments, which tend to the body's; and the faces' shares add
/// up. On a part with rounded, trapezoidal and drawn-out threads.
#[test]
fn moments_of_a_threaded_part() {
    let library = sectionwright::design::Library::new(vec![]);
    let design = sectionwright::design::load(&library, "tests/fixtures/threads.toml").unwrap();
    let body = build(&design.section.part()).unwrap();
    let m = body.measures();
    let mesh = mesh_inertia_about(&body, m.centroid);
    for (n, moment) in mesh.into_iter().enumerate() {
        assert!((moment / m.inertia[n][n] - 1.0).abs() < 1e-3, "{moment} {:?}", m.inertia);
    }
    let faces = body.face_measures();
    let (area, volume) = faces.iter().fold((0.0, 0.0), |(a, v), f| (a + f.area, v + f.volume));
    assert!((area / m.area - 1.0).abs() < 1e-12 && (volume / m.volume - 1.0).abs() < 1e-12);
    assert!(faces.iter().all(|face| face.area > 0.0));
}

/// A rounded root is as deep as ISO 68-1 has it: with R = H/6 the arc takes the whole flat at
/// d3 = d - 1.226869 P. Source: h3 = 17/24 H and R = H/6, printed by a tap maker's guide of 2022,
/// p. 56.
#[test]
fn a_rounded_root_of_the_design_profile_has_no_flat() {
    let mut thread = basic_thread(Item::TenonThread, Side::External, "M10x0.75", 2.0, 8.0);
    thread.form.root = mm(10.0 - 1.226_869 * 0.75);
    let fits = thread.form.radius_that_fits()[1];
    assert!((fits - iso68::root_radius(mm(0.75))).abs() < mm(1e-6), "{fits}");
    thread.form.root_radius = fits;
    assert_eq!(thread.form.root_flat(), mm(0.0));
    let runs = chain(&[(10.0, 0.0), (10.0, 10.0)], &[(6.0, 10.0), (6.0, 0.0)]);
    let body = build(&Part { runs, threads: vec![thread] }).unwrap();
    assert_eq!(body.genus(), 1);
}

/// A tap's lead leaves half the groove's volume over its length, as a cone cuts it: so the body
/// with a lead of length L weighs as much as one whose thread ends L / 2 - a bit earlier, since
/// a groove is wider above than below. Independent route: the groove's area below a depth.
#[test]
fn a_lead_leaves_what_a_cone_cuts() {
    let volume = |lead: f64| {
        let mut thread = basic_thread(Item::TenonThread, Side::External, "M10x0.75", 2.0, 12.0);
        if lead > 0.0 {
            thread.run_outs[0] = RunOut::Lead(mm(lead));
        }
        let runs = chain(&[(10.0, 0.0), (10.0, 14.0)], &[(6.0, 14.0), (6.0, 0.0)]);
        build(&Part { runs, threads: vec![thread] }).unwrap().measures().volume
    };
    let (pitch, lead) = (0.75_f64, 3.0);
    let depth = pitch * 3.0_f64.sqrt() / 2.0 * 5.0 / 8.0;
    // What stands in the groove below the cone, summed over depth: the groove of width w(x) at
    // depth x below the crest is filled along the lead's share x / depth from its shallow end.
    let width = |x: f64| 7.0 / 8.0 * pitch - 2.0 * x / 3.0_f64.sqrt();
    let steps = 20_000;
    let filled: f64 = (0..steps)
        .map(|n| {
            let x = (f64::from(n) + 0.5) / f64::from(steps) * depth;
            let turns = lead * (x / depth) / pitch;
            let around = std::f64::consts::TAU * (5.0 - x);
            around * turns * width(x) * depth / f64::from(steps)
        })
        .sum();
    let found = volume(lead) - volume(0.0);
    assert!((found / filled - 1.0).abs() < 2e-3, "{found} {filled}");
}

/// A root that is rounded whole reaches as deep as a flat one, and so do the lines that walls are
/// measured to; a groove that is drawn out rises from the root to the crest.
#[test]
fn what_a_rounded_or_drawn_out_thread_sweeps() {
    let lines = |rounded: bool, drawn_out: bool| {
        let mut thread = basic_thread(Item::TenonThread, Side::External, "M10x0.75", 2.0, 8.0);
        if rounded {
            thread.form.root_radius = thread.form.radius_that_fits()[1];
            assert_eq!(thread.form.root_flat(), mm(0.0));
        }
        if drawn_out {
            thread.run_outs[1] = RunOut::Withdrawal { turns: 0.3 };
        }
        let runs = chain(&[(10.0, 0.0), (10.0, 10.0)], &[(6.0, 10.0), (6.0, 0.0)]);
        build(&Part { runs, threads: vec![thread] }).unwrap().swept()
    };
    let root = 5.0 - 0.541_265_877 * 0.75;
    for rounded in [false, true] {
        for drawn_out in [false, true] {
            let lines = lines(rounded, drawn_out);
            let deepest = lines.iter().filter(|l| l.skin == sectionwright::section::Skin::Outside);
            let deepest = deepest.map(|l| l.from[0].min(l.to[0])).fold(f64::MAX, f64::min);
            assert!((deepest - root).abs() < 1e-6, "{rounded} {drawn_out}: {deepest}");
            let along = |l: &&sectionwright::solid::Swept| {
                l.from[0].max(l.to[0]) < root + 1e-6 && (l.to[1] - l.from[1]).abs() > 3.0
            };
            assert!(
                lines.iter().any(|l| along(&l)),
                "no line along the root: {rounded} {drawn_out}"
            );
            let rises = |l: &&sectionwright::solid::Swept| {
                (l.from[0].min(l.to[0]) - root).abs() < 1e-6
                    && (l.from[0].max(l.to[0]) - 5.0).abs() < 1e-6
                    && l.from[1] != l.to[1]
            };
            assert_eq!(lines.iter().any(|l| rises(&l)), drawn_out, "{rounded}");
        }
    }
}
