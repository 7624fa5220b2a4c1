//! Random designs and racks, as files.

use sectionwright::design::Resolved;

use super::bench::written;
use super::common::random::Dice;

/// A random design over the demo with a random rack, where it is sound.
pub fn resolved(seed: u64) -> Option<Resolved> {
    let [design, rack] = texts(seed);
    written(&[("pen.toml", &design), ("rack.toml", &rack)])
}

/// The texts of its two files, `pen.toml` and `rack.toml`.
pub fn texts(seed: u64) -> [String; 2] {
    let mut dice = Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15));
    [design(&mut dice), rack(&mut dice)]
}

fn design(dice: &mut Dice) -> String {
    let length = dice.within(18.0, 26.0);
    let front = dice.within(10.2, 11.4);
    let middle = dice.within(4.0, length - 6.0);
    let wide = dice.within(11.6, 13.0);
    let shape = dice.one_of(&["", "concave = 80", "convex = 90"]);
    let mut text = format!(
        "format = 1\nlike = \"demo\"\nrack = \"rack.toml\"\ncap = \"none\"\nconverter = \"none\"\n\
         [grip]\nlength = {length}\nfront = {front}\n"
    );
    if dice.percent(30) {
        text += "fillet = 0.2\n";
    }
    text += &format!("[[grip.run]]\nto = {middle}\ndiameter = {:.2}\n{shape}\n", wide - 0.6);
    let capped = dice.percent(25);
    if capped {
        let from = length - 5.0;
        text += &format!("[[grip.run]]\nto = {from:.2}\ndiameter = {wide}\n");
        text += &format!("[[grip.run]]\nto = {length}\nthread = \"M13xPh2.4P0.8-6g\"\n");
    } else {
        text += &format!("[[grip.run]]\nto = {length}\ndiameter = {wide}\n");
    }
    let hand = if dice.percent(25) { "-LH" } else { "" };
    let tenon = dice.one_of(&[9.0, 9.0, 11.0, 4.5]);
    text += &format!("[tenon]\nthread = \"M10x0.75-6g{hand}\"\nlength = {tenon}\n");
    text += dice.one_of(&[
        "relief = { width = 1.4, diameter = 8.9 }\n",
        "relief = \"none\"\n",
        "relief = { width = 1.0, diameter = 8.8 }\n",
    ]);
    if tenon > 8.0 && dice.percent(30) {
        text += "pilot = { length = 1.0, diameter = 8.6 }\n";
    }
    text += "[bores.recess]\n";
    text += dice.one_of(&["over = 0.33\n", "over = 0.2\n", "diameter = 9.0\n"]);
    text += dice.one_of(&["", "under = 0.1\n", "proud = 0.2\n"]);
    text += &format!("[bores.clearance]\nover = {}\n", dice.within(0.2, 0.5));
    text += dice.one_of(&["", "point = \"flat\"\n", "point = 90\n"]);
    if dice.percent(20) {
        text += "[bores]\n".trim_start_matches("[bores]\n");
        text += "[bores.through]\ndiameter = 6.4\n";
    }
    if dice.percent(35) {
        let wide = dice.within(6.9, 7.6);
        text += &format!(
            "[[bores.step]]\nfrom = \"back\"\ndiameter = {wide}\ndepth = {}\npoint = 118\n",
            dice.within(3.0, 8.0)
        );
    }
    if dice.percent(25) {
        text += "[bores.countersink]\nback = { mouth = 7.9, angle = 60 }\n";
        text += dice.one_of(&["", "front = { mouth = 9.5, angle = 90 }\n"]);
    }
    if dice.percent(20) {
        text += "[[bores.relief]]\nfrom = 14.2\nto = 15.6\ndiameter = 7.4\nwalls = 90\n";
    }
    let (facing, sanding) = (dice.one_of(&[0.0, 0.3, 0.5]), dice.one_of(&[0.0, 0.05]));
    text += &format!("[allowance]\nfacing = {facing}\nsanding = {sanding}\n");
    if dice.percent(40) {
        text += "[blank]\ndiameter = 15\nlength = 60\n";
    }
    text
}

fn rack(dice: &mut Dice) -> String {
    let mut text = "format = 1\nname = \"random\"\n".to_owned();
    text += dice.one_of(&[
        "sets = [\"metric-tenths\"]\n",
        "sets = [\"inch-fractions\", \"numbers-letters\"]\n",
        "",
    ]);
    for _ in 0..dice.one_of(&[0, 3, 12]) {
        let size = dice.within(6.0, 9.5);
        text += &format!("[[drill]]\nsize = {size}\npoint = {}\n", dice.one_of(&[90, 118, 135]));
        if dice.percent(30) {
            text += &format!(
                "cuts = [{{ material = \"cast-resin\", hole = {:.2}, uncertainty = 0.01 }}]\n",
                size + dice.within(0.0, 0.12)
            );
        }
    }
    if dice.percent(50) {
        text += "[[boring_bar]]\nleast = 5.0\nreach = 30\n";
    }
    if dice.percent(40) {
        text += &format!("[[end_mill]]\nsize = {}\n", dice.within(8.9, 9.4));
    }
    if dice.percent(30) {
        text += "[[tap]]\nthread = \"M7.9x0.6-6H\"\nlead = 4\n";
    }
    text + "[lathe]\nspeeds = [100, 250, 480, 800]\nquill = { per_turn = 2.0, divisions = 40 }\n"
}
