//! The picture of one lock.

use super::picture::{Picture, Words, head, head_mm, source_box, thin, wire};
use super::rails::{ABOVE_WIRE_MM, FEED_MM, LEFT_MM, LockPicture, SLOT_MM, SLOT_WORDS_MM, is_closed_at_rest};
use super::relay::{coil_circuit, command_circuit, relay_mm};
use super::symbols::{button, coil, contact, driver, joint, mushroom, suppressor, terminals};
use super::words;
use crate::language::{Lettering, Word};
use latchline_assess::door::sheet::{DoorSheet, LockSheet};
use latchline_scene::font::{CAPITAL_EM, LADDER_MM, undivided};
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Attribute, Block, Group, Layer, Pen, Point, Stroke, Text};
use latchline_site::model::{LockFeed, LockRelay, Suppression};
use latchline_wiring::lock::WiringElement;

/// Room for the lock with what lies across it: four slots beside it fit upright on A4.
const LOCK_MM: f64 = 44.0;
/// From the end of the slots to what lies across the lock, and to the lock.
const ACROSS_MM: f64 = 4.5;
const TO_LOCK_MM: f64 = 37.0;
/// From the head to the upper rail with a branch across the relay's contact, and without.
const UPPER_MM: [f64; 2] = [25.5, 15.5];
/// Below the lower rail, without and with a door contact.
const BELOW_MM: f64 = 7.0;
const DOOR_CONTACT_MM: f64 = 19.0;
const BELOW_WIRE_MM: f64 = 4.2;
/// From a wire to the number of its connector: above the marks of terminals beside it.
const JOINT_ABOVE_MM: f64 = 4.6;
/// From the ends of a slot to the ends of a second way across its contact.
const BRANCH_INSET_MM: f64 = 1.5;

/// The parts in series that are contacts.
fn contacts(lock: &LockSheet) -> Vec<WiringElement> {
    use WiringElement as W;
    let is_contact = |element: &W| !matches!(element, W::FeedOut | W::FeedReturn | W::Lock | W::DriveInput);
    lock.wiring.series.iter().copied().filter(is_contact).collect()
}

/// The picture of one lock.
pub(crate) fn lock_picture(door: &DoorSheet, lock: &LockSheet, lettering: Lettering) -> Picture {
    let name = words::lock_name(door, lock, lettering);
    let contacts = contacts(lock);
    let width_mm = LEFT_MM + SLOT_MM * contacts.len() as f64 + LOCK_MM;
    // One that is wired to an alarm input is drawn there.
    let has_door_contact = lock.door_contact == Some(true) && lock.door_contact_input.is_none();
    let has_branch = !lock.wiring.across_contact.is_empty();
    let principle = lettering.word(words::principle(&lock.wiring, lock.power_loss));
    let title = lock.title.of(lettering.0.language);
    let head_mm = head_mm(width_mm, &name, title, principle);
    let plan = LockPicture { upper: head_mm + UPPER_MM[usize::from(!has_branch)], lettering };
    let below_coil = plan.lower() + relay_mm(lock, width_mm, lettering);
    let height_mm = below_coil + BELOW_MM + if has_door_contact { DOOR_CONTACT_MM } else { 0.0 };
    let in_words = format!("{name}: {}", words::chain(lock, lettering));
    let mut group = Group::of_element("lock-wiring", name.clone(), in_words.clone());
    let area = Area::new(0.0, 0.0, width_mm, height_mm);
    head(&mut group, area, &name, title, principle);
    circuit(&mut group, lock, &contacts, plan);
    if lock.wiring.relay == LockRelay::Between {
        coil_circuit(&mut group, lock, plan);
    }
    if lock.wiring.relay == LockRelay::OnSecureSide {
        command_circuit(&mut group, lock, width_mm, plan);
    }
    if has_door_contact {
        door_contact(&mut group, below_coil + 14.0, width_mm, plan);
    }
    Picture { group, width_mm, height_mm, words: in_words }
}

fn circuit(group: &mut Group, lock: &LockSheet, contacts: &[WiringElement], plan: LockPicture) {
    let wiring = &lock.wiring;
    feed(group, lock, plan);
    for (index, element) in contacts.iter().enumerate() {
        let x = LEFT_MM + SLOT_MM * index as f64;
        part(group, lock, *element, x, plan);
        if words::relay_terminal(*element).is_some() {
            for across in &wiring.across_contact {
                branch(group, lock, *across, x, plan);
            }
        }
    }
    let end = LEFT_MM + SLOT_MM * contacts.len() as f64;
    let right = end + TO_LOCK_MM;
    group.path(Layer::Wiring, vec![(end, plan.upper), (right, plan.upper)], wire());
    group.path(Layer::Wiring, vec![(LEFT_MM, plan.lower()), (right, plan.lower())], wire());
    connectors(group, lock, plan);
    if let Some((cable, length_m)) = &lock.cable {
        let cable = format!("{cable}, {}", plan.lettering.length(*length_m));
        let at = (LEFT_MM + 3.0, plan.lower() + BELOW_WIRE_MM);
        Words::from(at, right - LEFT_MM - 3.0).quiet().draw(group, &cable);
    }
    if wiring.feed == LockFeed::DryContact {
        group.line(Layer::Wiring, (right, plan.upper), (right, plan.lower()), wire());
        return;
    }
    lock_box(group, plan.lettering.word(words::lock_kind(lock.kind)), right, plan);
    let across = wiring.across_lock.and_then(|fitted| Some((fitted, words::suppressor(fitted)?)));
    if let Some((fitted, word)) = across {
        let volts = wiring.across_lock_v.map(|volts| format!(" {} V", plan.lettering.trimmed(volts, 1)));
        let name = format!("{}{}", plan.lettering.word(word), volts.unwrap_or_default());
        across_lock(group, fitted, &name, end + ACROSS_MM, plan);
    }
}

/// Connectors at the rails, with their numbers in the wiring schedule.
fn connectors(group: &mut Group, lock: &LockSheet, plan: LockPicture) {
    let nodes = lock.wiring.series.len() - 1;
    let is_dry = lock.wiring.feed == LockFeed::DryContact;
    // Beside the box of the feed, and where a second way across the relay's contact begins and ends.
    let branch = if lock.wiring.across_contact.is_empty() { 0.0 } else { -BRANCH_INSET_MM };
    let shift = |node: usize| match node {
        0 => BRANCH_INSET_MM,
        1 => branch,
        _ => 0.0,
    };
    for (node, number) in lock.joints.iter().enumerate().take(nodes) {
        let Some(number) = number else { continue };
        // The last node of a lock with a feed is its way back.
        let at = match node + 1 == nodes && !is_dry {
            true => (LEFT_MM + 2.0, plan.lower()),
            false => (LEFT_MM + SLOT_MM * node as f64 + shift(node), plan.upper),
        };
        joint(group, at);
        // Beside its own wire to it, clear of the marks of terminals.
        let above = if at.1 == plan.upper { JOINT_ABOVE_MM } else { ABOVE_WIRE_MM };
        if at.1 == plan.upper {
            group.line(Layer::Frame, at, (at.0, at.1 - JOINT_ABOVE_MM - LADDER_MM * CAPITAL_EM), thin());
        }
        Words::from((at.0 + 0.8, at.1 - above), SLOT_MM).bold().draw(group, &number.to_string());
    }
}

/// The feed or the drive's input at the left.
fn feed(group: &mut Group, lock: &LockSheet, plan: LockPicture) {
    let area = Area::new(3.0, plan.upper - 4.0, FEED_MM, plan.lower() - plan.upper + 7.0);
    let mut lines = words::feed(lock, plan.lettering);
    // Without a known feed the picture does not say which side is which.
    let mut signs = ["", ""];
    if let Ok(circuit) = &lock.circuit {
        let is_ac = circuit.feed.is_ac;
        let kind = if is_ac { "AC" } else { "DC" };
        lines.push(format!("{} V {kind}", plan.lettering.trimmed(circuit.feed.voltage_v, 1)));
        signs = if is_ac { ["~", "~"] } else { ["+", "–"] };
    }
    source_box(group, area, &lines);
    for (sign, y) in signs.into_iter().zip([plan.upper, plan.lower()]) {
        if !sign.is_empty() {
            let text = Text::new((area.right() - 1.2, y + 1.2), sign, LADDER_MM).bold();
            group.text(Layer::Lettering, text.anchored(Anchor::End));
        }
    }
}

/// A contact in the slot that starts at `x`, with its name below.
fn part(group: &mut Group, lock: &LockSheet, element: WiringElement, x: f64, plan: LockPicture) {
    let centre = (x + SLOT_MM / 2.0, plan.upper);
    let half = super::symbols::HALF_MM;
    group.line(Layer::Wiring, (x, plan.upper), (centre.0 - half, plan.upper), wire());
    group.line(Layer::Wiring, (centre.0 + half, plan.upper), (x + SLOT_MM, plan.upper), wire());
    let name = words::element_name(element, lock, plan.lettering);
    let far = words::relay_terminal(element);
    let mut symbol = Group::new("contact");
    let blade = contact(&mut symbol, centre, is_closed_at_rest(element));
    if far.is_some() {
        coil(&mut symbol, blade);
    }
    moved_by_hand(&mut symbol, element, blade);
    if element == WiringElement::FireInterlock {
        driver(&mut symbol, blade, plan.lettering.word(Word::Fire));
    }
    group.group(as_block(symbol, block_name(element), centre, &name, far.unwrap_or_default()));
    if let Some(far) = far {
        terminals(group, centre, far);
    }
    let below = Words::about((centre.0, plan.upper + 5.2), SLOT_WORDS_MM).draw(group, &name);
    if let Some(remark) = words::element_remark(element, lock) {
        below.quiet().draw(group, plan.lettering.word(remark));
    }
}

/// A symbol as CAD places it: what it is called, and the terminal at its far side.
fn as_block(mut symbol: Group, name: &'static str, at: Point, designation: &str, terminal: &str) -> Group {
    let attribute =
        |(tag, value): (&'static str, &str)| Attribute { tag, value: value.to_string(), node: None };
    symbol.role.block = Some(Block {
        name,
        at,
        scale: 1.0,
        nodes: 0..symbol.nodes.len(),
        attributes: [("DESIGNATION", undivided(designation).as_str()), ("TERMINAL", terminal)]
            .map(attribute)
            .to_vec(),
    });
    symbol
}

/// Name of the block of a contact in CAD: one for each that looks different.
fn block_name(element: WiringElement) -> &'static str {
    use WiringElement as W;
    match element {
        W::RelayNormallyOpen => "RELAY_MAKE",
        W::RelayNormallyClosed => "RELAY_BREAK",
        W::RelayBetween => "RELAY_BETWEEN",
        W::ExitButtonNormallyOpen => "BUTTON_MAKE",
        W::ExitButtonNormallyClosed => "BUTTON_BREAK",
        W::EmergencyRelease => "EMERGENCY_RELEASE",
        W::FireInterlock => "FIRE_CONTACT",
        W::FeedOut | W::FeedReturn => "FEED",
        W::Lock => "LOCK",
        W::DriveInput => "DRIVE_INPUT",
    }
}

fn moved_by_hand(group: &mut Group, element: WiringElement, blade: Point) {
    match element {
        WiringElement::ExitButtonNormallyOpen | WiringElement::ExitButtonNormallyClosed => {
            button(group, blade);
        }
        WiringElement::EmergencyRelease => mushroom(group, blade),
        _ => {}
    }
}

/// A second way across the relay's contact.
fn branch(group: &mut Group, lock: &LockSheet, element: WiringElement, x: f64, plan: LockPicture) {
    let (from, to) = (x + BRANCH_INSET_MM, x + SLOT_MM - BRANCH_INSET_MM);
    for end in [from, to] {
        group.line(Layer::Wiring, (end, plan.upper), (end, plan.branch()), wire());
        joint(group, (end, plan.upper));
    }
    let centre = (x + SLOT_MM / 2.0, plan.branch());
    let half = super::symbols::HALF_MM;
    group.line(Layer::Wiring, (from, plan.branch()), (centre.0 - half, plan.branch()), wire());
    group.line(Layer::Wiring, (centre.0 + half, plan.branch()), (to, plan.branch()), wire());
    let name = words::element_name(element, lock, plan.lettering);
    let mut symbol = Group::new("contact");
    let blade = contact(&mut symbol, centre, is_closed_at_rest(element));
    moved_by_hand(&mut symbol, element, blade);
    group.group(as_block(symbol, block_name(element), centre, &name, ""));
    let at = (x + SLOT_MM + 0.5, plan.branch() + 0.8);
    let below = Words::from(at, TO_LOCK_MM).draw(group, &name);
    if let Some(remark) = words::element_remark(element, lock) {
        below.quiet().draw(group, plan.lettering.word(remark));
    }
}

/// The lock across the rails, its name above the end of the upper one.
fn lock_box(group: &mut Group, word: &str, x: f64, plan: LockPicture) {
    let middle = (plan.upper + plan.lower()) / 2.0;
    let area = Area::new(x - 5.0, middle - 6.0, 10.0, 12.0);
    group.line(Layer::Wiring, (x, plan.upper), (x, area.y), wire());
    group.line(Layer::Wiring, (x, area.bottom()), (x, plan.lower()), wire());
    let mut symbol = Group::new("lock");
    symbol.rectangle(Layer::Device, area, 0.0, Some(Stroke::solid(Ink::Text, Pen::Thick)), Some(Ink::Inside));
    group.group(as_block(symbol, "LOCK", (x, middle), word, ""));
    let at = (x + LOCK_MM - TO_LOCK_MM - 2.0, plan.upper - ABOVE_WIRE_MM);
    Words::to(at, TO_LOCK_MM).bold().draw(group, word);
}

/// What lies across the lock, with its name at the right.
fn across_lock(group: &mut Group, part: Suppression, name: &str, x: f64, plan: LockPicture) {
    let rails = [plan.upper, plan.lower()];
    let mut symbol = Group::new("suppressor");
    suppressor(&mut symbol, part, x, rails);
    let block = match part {
        Suppression::Varistor => "VARISTOR",
        Suppression::Clamp => "CLAMP",
        Suppression::Diode | Suppression::None => "DIODE",
    };
    group.group(as_block(symbol, block, (x, rails[0]), name, ""));
    let room = TO_LOCK_MM - ACROSS_MM - 3.8 - 6.0;
    let below = Words::from((x + 3.8, plan.upper + 6.0), room).draw(group, name);
    if matches!(part, Suppression::Diode | Suppression::Clamp) {
        below.quiet().draw(group, plan.lettering.word(Word::BarToPlus));
    }
}

/// The contact that reports whether the door is shut, in a row of its own at `y`, below the lock's circuit.
fn door_contact(group: &mut Group, y: f64, width_mm: f64, plan: LockPicture) {
    const BETWEEN_MM: f64 = 6.0;
    let ends = 3.0 + FEED_MM;
    let centre = (ends + 14.0, y);
    let half = super::symbols::HALF_MM;
    let turn = centre.0 + half + 6.0;
    group.line(Layer::Wiring, (ends, y), (centre.0 - half, y), wire());
    group.path(
        Layer::Wiring,
        vec![(centre.0 + half, y), (turn, y), (turn, y + BETWEEN_MM), (ends, y + BETWEEN_MM)],
        wire(),
    );
    contact(group, centre, true);
    for end in [y, y + BETWEEN_MM] {
        group.circle(Layer::Wiring, (ends, end), 0.5, Some(thin()), Some(Ink::Paper));
    }
    Words::to((ends - 2.0, y + 2.0), FEED_MM - 3.0).draw(group, plan.lettering.word(Word::ToItsInput));
    let name = plan.lettering.word(Word::DoorContact);
    let below = Words::from((turn + 2.0, y + 2.0), width_mm - turn - 4.0).draw(group, name);
    below.quiet().draw(group, plan.lettering.word(Word::ClosedWhileShut));
}
