//! `compare`: the demo's pair, and archives.

use super::*;

/// The advice is taken, in a file, and the pens are compared again: then they match.
#[test]
fn the_advice_for_the_demo_pair_works() {
    let home = tempfile::tempdir().unwrap();
    let compare = |b: &str| run(home.path(), &["compare", "demo", b, "--json"]);
    let before = compare("demo-second");
    assert_eq!(status(&before), 1, "{}", err(&before));
    let told = json(&before);
    assert_eq!(told["interchange"], false);
    assert_eq!(told["b_in_a"]["breaks"], serde_json::json!(["clear.cap", "joint.flush"]));
    let steps = told["change_section"].as_array().unwrap();
    assert_eq!(steps.len(), 1, "{told}");
    assert_eq!(
        (&steps[0]["key"], &steps[0]["to_mm"]),
        (&"grip.run.3.diameter".into(), &12.4.into())
    );
    let mates = told["change_mates"].as_array().unwrap();
    let mut text = "format = 1\nlike = \"demo-second\"\nname = \"changed\"\n".to_owned();
    text += "[[grip.run]]\nto = 9\ndiameter = 11.4\n[[grip.run]]\nto = 19\ndiameter = 12.3\n\
             [[grip.run]]\nto = 22\ndiameter = 12.4\n";
    let joint = "diameter of the barrel at the joint";
    assert!(mates.iter().any(|step| step["said"].as_str().unwrap().starts_with(joint)), "{told}");
    text += "[barrel]\noutside = 12.4\n";
    fs::write(home.path().join("changed.toml"), text).unwrap();
    let after = compare("changed.toml");
    let told = json(&after);
    assert_eq!(status(&after), 0, "{told}");
    assert_eq!(told["interchange"], true);
}

#[test]
fn it_is_said_and_drawn_for_a_maker() {
    let home = tempfile::tempdir().unwrap();
    let compared = run(home.path(), &["compare", "demo", "demo-second"]);
    let said = out(&compared);
    for words in [
        "B's section in A's barrel and cap: does not fit",
        "-> diameter at the end of run 3 of the grip: 12.40 mm instead of 12.70 mm",
        "measured again",
        "diameter of the collar recess",
        "no approval",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    let svg = fs::read_to_string(home.path().join("out/compare-demo-demo-second.svg")).unwrap();
    assert!(svg.contains("class=\"mate\"") && svg.contains("shoulder on shoulder"));
    fs::write(home.path().join("mine.svg"), "mine").unwrap();
    let taken = run(home.path(), &["compare", "demo", "demo", "--picture", "mine.svg"]);
    assert_eq!(status(&taken), 2);
    assert!(err(&taken).contains("picture.exists"));
    let pdf = run(home.path(), &["compare", "demo", "demo", "--picture", "pair.pdf"]);
    assert_eq!(status(&pdf), 0, "{}", err(&pdf));
    assert!(fs::read(home.path().join("pair.pdf")).unwrap().starts_with(b"%PDF"));
}

#[test]
fn archives_are_compared_by_what_is_in_them() {
    let home = tempfile::tempdir().unwrap();
    let [a, b] = ["demo", "demo-second"].map(|design| keep(home.path(), design, &[]));
    let of = |a: &str, b: &str| {
        let mut told = json(&run(home.path(), &["compare", a, b, "--json"]));
        told["a"].take();
        told
    };
    let archives = of(a.to_str().unwrap(), b.to_str().unwrap());
    assert_eq!(archives, of("demo", "demo-second"));
}

#[test]
fn pens_that_never_meet_are_refused_in_words() {
    let home = tempfile::tempdir().unwrap();
    let compared = run(home.path(), &["compare", "demo", &fixture("capped.toml")]);
    assert_eq!(status(&compared), 1, "{}", err(&compared));
    assert!(out(&compared).contains("does not go in"), "{}", out(&compared));
    let wrong = run(home.path(), &["compare", "nothing", "nor this"]);
    assert_eq!(status(&wrong), 2);
    assert!(err(&wrong).matches("profile.missing").count() == 2, "{}", err(&wrong));
}
