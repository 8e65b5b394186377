//! Wiring pictures of locks: what lies in series from the feed to the lock, what lies across the relay's
//! contact, and what across the lock.
//!
//! Contacts are drawn as at rest: no power at the coil, no button pressed, door shut. Make and break
//! contacts, push button, diode and varistor follow the ideas of IEC 60617 (sections 07-02, 05-03,
//! 04-01; from memory); lock, fire alarm and drive are plain boxes with words. Every part has its
//! name beside it, so nothing rests on a symbol alone.

use crate::palette::Ink;
use crate::scene::{Anchor, Area, Group, Layer, Point, Scene, Shape, Stroke, Text};
use crate::sheet::{Frame, SheetOptions, SheetSize, TitleBlock, fitted};
use crate::svg::on_circle;
use latchline_assess::Assessment;
use latchline_assess::door::sheet::{DoorSheet, LockSheet};
use latchline_assess::door::wiring::{Wiring, WiringElement};
use latchline_site::catalogue::{LockKind, PowerLoss};
use latchline_site::model::{LockFeed, Site, Suppression};

/// Width of one picture.
pub const PICTURE_WIDTH_MM: f64 = 178.0;
/// Height of one picture.
pub const PICTURE_HEIGHT_MM: f64 = 66.0;
const GAP_MM: f64 = 5.0;
const SLOT_MM: f64 = 29.0;
const FEED_MM: f64 = 22.0;
/// The upper and the lower rail, and the branch across the relay's contact.
const UPPER_MM: f64 = 36.0;
const LOWER_MM: f64 = 59.0;
const BRANCH_MM: f64 = 21.5;
const LABEL_MM: f64 = 2.4;

fn wire() -> Stroke {
    Stroke::solid(Ink::Wire, 0.35)
}

fn thin() -> Stroke {
    Stroke::solid(Ink::Text, 0.3)
}

/// A picture for each lock of each entrance, several to a sheet.
pub fn wiring_sheets(site: &Site, assessment: &Assessment, options: &SheetOptions) -> Vec<Scene> {
    let frame = Frame::new(options.sheet.unwrap_or(SheetSize::A4_UPRIGHT), &[]);
    let content = frame.content;
    let block = TitleBlock::of_site(
        site,
        "Wiring of the locks, contacts drawn at rest",
        String::from("Isolate and prove dead before wiring; the responsible person decides on escape."),
        options,
    );
    let locks: Vec<(&DoorSheet, &LockSheet)> =
        assessment.doors.iter().flat_map(|door| door.locks.iter().map(move |lock| (door, lock))).collect();
    // Small sheets shrink the picture, large ones show it at about its own size, several side by side.
    let factor = (content.width / PICTURE_WIDTH_MM).min(content.height / PICTURE_HEIGHT_MM).min(1.1);
    let (width, height) = (PICTURE_WIDTH_MM * factor, PICTURE_HEIGHT_MM * factor);
    let across = fits(content.width, width);
    let down = fits(content.height, height);
    let sheets: Vec<&[(&DoorSheet, &LockSheet)]> =
        if locks.is_empty() { vec![&[]] } else { locks.chunks(across * down).collect() };
    let of = sheets.len();
    let mut scenes = Vec::with_capacity(of);
    for (number, on_sheet) in sheets.into_iter().enumerate() {
        let title = format!("{}: wiring of the locks, sheet {} of {of}", block.site, number + 1);
        let words: Vec<String> = on_sheet
            .iter()
            .map(|(door, lock)| format!("{}: {}", name(door, lock), chain(&lock.wiring)))
            .collect();
        let mut scene = frame.scene(title, words.join("; "));
        for (place, (door, lock)) in on_sheet.iter().enumerate() {
            let x = content.x + (place % across) as f64 * (width + GAP_MM);
            let y = content.y + (place / across) as f64 * (height + GAP_MM);
            let mut picture = wiring_picture(door, lock);
            picture.transform(factor, (x, y));
            scene.root.group(picture);
        }
        frame.draw(&mut scene.root, &block, &[], number + 1, of);
        scenes.push(scene);
    }
    scenes
}

/// How many of this size go side by side.
fn fits(room: f64, size: f64) -> usize {
    // A picture that was shrunk to the room fits despite rounding.
    (((room + GAP_MM) / (size + GAP_MM) + 1e-9) as usize).max(1)
}

fn name(door: &DoorSheet, lock: &LockSheet) -> String {
    format!("{} lock {}", door.entrance, lock.number)
}

/// The wiring as words, for those who cannot see the picture.
fn chain(wiring: &Wiring) -> String {
    let series: Vec<&str> = wiring.series.iter().map(|element| words(*element)).collect();
    series.join(", ")
}

/// What stands under a part.
fn words(element: WiringElement) -> &'static str {
    match element {
        WiringElement::FeedOut | WiringElement::FeedReturn => "feed",
        WiringElement::RelayNormallyOpen => "relay, normally open",
        WiringElement::RelayNormallyClosed => "relay, normally closed",
        WiringElement::RelayBetween => "relay in between",
        WiringElement::ExitButtonNormallyOpen | WiringElement::ExitButtonNormallyClosed => "exit button",
        WiringElement::EmergencyRelease => "emergency release",
        WiringElement::FireInterlock => "fire alarm contact",
        WiringElement::Lock => "lock",
        WiringElement::DriveInput => "drive's input",
    }
}

/// The picture of one lock, its left upper corner at the origin.
pub fn wiring_picture(door: &DoorSheet, lock: &LockSheet) -> Group {
    let wiring = &lock.wiring;
    let name = name(door, lock);
    let mut group = Group::of_element("lock-wiring", name.clone(), format!("{name}: {}", chain(wiring)));
    let frame = Area::new(0.0, 0.0, PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM);
    group.rectangle(Layer::Frame, frame, 1.0, Some(Stroke::solid(Ink::Outline, 0.3)), None);
    let room = PICTURE_WIDTH_MM - 6.0;
    group.text(Layer::Lettering, fitted((3.0, 5.6), &name, 4.2, 2.6, true, room * 0.5));
    let model = fitted((PICTURE_WIDTH_MM - 3.0, 5.4), &lock.title, 2.6, 2.0, false, room * 0.45);
    group.text(Layer::Lettering, model.anchored(Anchor::End).ink(Ink::Quiet));
    let kind = match (wiring.feed, lock.power_loss) {
        (LockFeed::DryContact, _) => "dry contact for a drive with power of its own",
        (_, PowerLoss::Opens) => {
            "opens without power: every contact in series is closed while the door is shut"
        }
        (_, PowerLoss::StaysShut) => "stays shut without power: a contact closes to release it",
    };
    group.text(Layer::Lettering, fitted((3.0, 10.4), kind, 2.8, 2.2, false, room).ink(Ink::Quiet));
    circuit(&mut group, lock);
    group
}

fn circuit(group: &mut Group, lock: &LockSheet) {
    let wiring = &lock.wiring;
    let dry = wiring.feed == LockFeed::DryContact;
    let left = 3.0 + FEED_MM;
    let right = PICTURE_WIDTH_MM - 14.0;
    source(group, lock);
    let contacts: Vec<WiringElement> = wiring
        .series
        .iter()
        .copied()
        .filter(|element| !matches!(element, WiringElement::FeedOut | WiringElement::FeedReturn))
        .filter(|element| !matches!(element, WiringElement::Lock | WiringElement::DriveInput))
        .collect();
    let mut x = left;
    for element in &contacts {
        contact(group, *element, (x, UPPER_MM));
        if matches!(element, WiringElement::RelayNormallyOpen | WiringElement::RelayNormallyClosed) {
            relay(group, x);
            for across in &wiring.across_contact {
                branch(group, *across, x);
            }
        }
        x += SLOT_MM;
    }
    let upper = vec![(x, UPPER_MM), (right, UPPER_MM)];
    group.path(Layer::Wiring, upper, wire());
    group.path(Layer::Wiring, vec![(left, LOWER_MM), (right, LOWER_MM)], wire());
    if dry {
        group.line(Layer::Wiring, (right, UPPER_MM), (right, LOWER_MM), wire());
        return;
    }
    lock_box(group, lock.kind, right);
    if let Some(fitted) = wiring.across_lock {
        suppressor(group, fitted, right - 14.0);
    }
}

/// The feed or the drive's input at the left.
fn source(group: &mut Group, lock: &LockSheet) {
    let wiring = &lock.wiring;
    let area = Area::new(3.0, UPPER_MM - 4.0, FEED_MM, LOWER_MM - UPPER_MM + 7.0);
    group.rectangle(Layer::Device, area, 0.0, Some(thin()), Some(Ink::Inside));
    let lines: [&str; 2] = match wiring.feed {
        LockFeed::Station => ["door station's", "lock output"],
        LockFeed::Bus => ["bus at the", "door station"],
        LockFeed::OwnSupply => ["supply of", "its own"],
        LockFeed::DryContact => ["input of", "the drive"],
    };
    let middle = area.y + area.height / 2.0;
    for (line, y) in lines.into_iter().zip([middle - 0.6, middle + 2.8]) {
        let text = fitted((area.x + FEED_MM / 2.0, y), line, LABEL_MM, 1.8, false, FEED_MM - 2.0);
        group.text(Layer::Lettering, text.anchored(Anchor::Middle));
    }
    // Without a known feed the picture does not say which side is which.
    let signs = match &lock.circuit {
        Ok(circuit) if circuit.feed.is_ac => ["~", "~"],
        Ok(_) => ["+", "–"],
        Err(_) => ["", ""],
    };
    for (sign, y) in signs.into_iter().zip([UPPER_MM, LOWER_MM]) {
        if !sign.is_empty() {
            let text = Text::new((area.right() - 1.2, y + 1.1), sign, 3.2).bold();
            group.text(Layer::Lettering, text.anchored(Anchor::End));
        }
    }
}

/// A contact in a slot that starts at `x` on a wire at `y`, with its name below.
fn contact(group: &mut Group, element: WiringElement, (x, y): Point) {
    let centre = x + SLOT_MM / 2.0;
    let (from, to) = (centre - 4.0, centre + 4.0);
    group.line(Layer::Wiring, (x, y), (from, y), wire());
    group.line(Layer::Wiring, (to, y), (x + SLOT_MM, y), wire());
    let closed = matches!(
        element,
        WiringElement::RelayNormallyClosed
            | WiringElement::ExitButtonNormallyClosed
            | WiringElement::EmergencyRelease
            | WiringElement::FireInterlock
    );
    let tip = if closed {
        // A break contact: the blade rests on a stop at the fixed side.
        group.line(Layer::Device, (to, y), (to, y - 2.6), thin());
        (to + 1.0, y - 2.6)
    } else {
        (to - 0.6, y - 3.6)
    };
    group.line(Layer::Device, (from, y), tip, Stroke::solid(Ink::Text, 0.45));
    for end in [from, to] {
        group.circle(Layer::Device, (end, y), 0.5, Some(thin()), Some(Ink::Paper));
    }
    let blade = (centre, (y + tip.1) / 2.0);
    match element {
        WiringElement::ExitButtonNormallyOpen | WiringElement::ExitButtonNormallyClosed => {
            button(group, blade)
        }
        WiringElement::EmergencyRelease => mushroom(group, blade),
        WiringElement::FireInterlock => {
            let area = Area::new(centre - 6.0, y - 13.0, 12.0, 5.0);
            group.line(
                Layer::Device,
                (centre, area.bottom()),
                blade,
                thin().dashed(crate::scene::Dash::Dashed),
            );
            group.rectangle(Layer::Device, area, 0.0, Some(thin()), Some(Ink::Inside));
            let text = Text::new((centre, area.y + 3.4), "FIRE", LABEL_MM).bold();
            group.text(Layer::Lettering, text.anchored(Anchor::Middle));
        }
        _ => {}
    }
    let first = fitted((centre, y + 5.0), words(element), LABEL_MM, 1.7, false, SLOT_MM - 2.0);
    group.text(Layer::Lettering, first.anchored(Anchor::Middle));
    let second = match element {
        WiringElement::ExitButtonNormallyOpen => "normally open",
        WiringElement::ExitButtonNormallyClosed => "normally closed",
        WiringElement::EmergencyRelease | WiringElement::FireInterlock => "opens to release",
        _ => "",
    };
    if !second.is_empty() {
        let text = fitted((centre, y + 8.2), second, 2.0, 1.6, false, SLOT_MM - 2.0).ink(Ink::Quiet);
        group.text(Layer::Lettering, text.anchored(Anchor::Middle));
    }
}

/// A push button's stem and head above a blade.
fn button(group: &mut Group, (x, y): Point) {
    let head = y - 6.0;
    group.line(Layer::Device, (x, y), (x, head), thin().dashed(crate::scene::Dash::Dashed));
    let head = vec![(x - 1.8, head + 1.4), (x - 1.8, head), (x + 1.8, head), (x + 1.8, head + 1.4)];
    group.path(Layer::Device, head, Stroke::solid(Ink::Text, 0.45));
}

/// An emergency release: a mushroom head.
fn mushroom(group: &mut Group, (x, y): Point) {
    let head = y - 6.0;
    group.line(Layer::Device, (x, y), (x, head), thin().dashed(crate::scene::Dash::Dashed));
    let arc: Vec<Point> = (0..=12).map(|step| on_circle((x, head), 2.6, 15.0 * f64::from(step))).collect();
    group.polygon(Layer::Device, arc, Ink::Text);
}

/// What moves the relay's contact: the coil in the door station or its module.
fn relay(group: &mut Group, x: f64) {
    let centre = x + SLOT_MM / 2.0;
    let area = Area::new(centre - 3.0, UPPER_MM - 11.5, 6.0, 3.6);
    let link = thin().dashed(crate::scene::Dash::Dashed);
    group.line(Layer::Device, (centre, area.bottom()), (centre, UPPER_MM - 1.8), link);
    group.rectangle(Layer::Device, area, 0.0, Some(thin()), Some(Ink::Inside));
    group.line(Layer::Device, (area.x, area.bottom()), (area.x + 2.0, area.y), thin());
}

/// A second way across the relay's contact.
fn branch(group: &mut Group, element: WiringElement, x: f64) {
    let (from, to) = (x + 1.5, x + SLOT_MM - 1.5);
    for end in [from, to] {
        group.line(Layer::Wiring, (end, UPPER_MM), (end, BRANCH_MM), wire());
        group.circle(Layer::Wiring, (end, UPPER_MM), 0.6, None, Some(Ink::Wire));
    }
    let centre = x + SLOT_MM / 2.0;
    group.line(Layer::Wiring, (from, BRANCH_MM), (centre - 4.0, BRANCH_MM), wire());
    group.line(Layer::Wiring, (centre + 4.0, BRANCH_MM), (to, BRANCH_MM), wire());
    group.line(
        Layer::Device,
        (centre - 4.0, BRANCH_MM),
        (centre + 3.4, BRANCH_MM - 3.6),
        Stroke::solid(Ink::Text, 0.45),
    );
    for end in [centre - 4.0, centre + 4.0] {
        group.circle(Layer::Device, (end, BRANCH_MM), 0.5, Some(thin()), Some(Ink::Paper));
    }
    button(group, (centre, BRANCH_MM - 1.8));
    let text = fitted((x + SLOT_MM + 0.5, BRANCH_MM + 0.8), words(element), LABEL_MM, 1.8, false, 24.0);
    group.text(Layer::Lettering, text);
}

/// The lock across the rails.
fn lock_box(group: &mut Group, kind: LockKind, x: f64) {
    let middle = (UPPER_MM + LOWER_MM) / 2.0;
    let area = Area::new(x - 9.0, middle - 5.0, 18.0, 10.0);
    group.line(Layer::Wiring, (x, UPPER_MM), (x, area.y), wire());
    group.line(Layer::Wiring, (x, area.bottom()), (x, LOWER_MM), wire());
    group.rectangle(Layer::Device, area, 0.0, Some(Stroke::solid(Ink::Text, 0.45)), Some(Ink::Inside));
    let word = match kind {
        LockKind::Strike => "strike",
        LockKind::Magnet => "magnet",
        LockKind::Motor => "motor lock",
        LockKind::Gate => "drive",
    };
    let text = fitted((x, middle + 1.0), word, 2.8, 2.0, true, 16.0);
    group.text(Layer::Lettering, text.anchored(Anchor::Middle));
}

/// A diode, clamp or varistor across the lock; the cathode is at the upper rail.
fn suppressor(group: &mut Group, fitted_part: Suppression, x: f64) {
    let middle = (UPPER_MM + LOWER_MM) / 2.0;
    let (top, bottom) = (middle - 3.0, middle + 3.0);
    group.line(Layer::Wiring, (x, UPPER_MM), (x, top), wire());
    group.line(Layer::Wiring, (x, bottom), (x, LOWER_MM), wire());
    for end in [UPPER_MM, LOWER_MM] {
        group.circle(Layer::Wiring, (x, end), 0.6, None, Some(Ink::Wire));
    }
    let word = match fitted_part {
        Suppression::None => return,
        Suppression::Diode => {
            triangle(group, (x, middle), 3.0);
            group.line(Layer::Device, (x - 2.4, top), (x + 2.4, top), Stroke::solid(Ink::Text, 0.5));
            "diode"
        }
        Suppression::Clamp => {
            triangle(group, (x, middle), 3.0);
            let bent = vec![(x - 2.4, top + 1.2), (x - 2.4, top), (x + 2.4, top), (x + 2.4, top - 1.2)];
            group.path(Layer::Device, bent, Stroke::solid(Ink::Text, 0.5));
            "clamp"
        }
        Suppression::Varistor => {
            let area = Area::new(x - 1.3, top, 2.6, bottom - top);
            group.rectangle(Layer::Device, area, 0.0, Some(thin()), Some(Ink::Inside));
            group.path(Layer::Device, vec![(x - 3.4, bottom), (x - 2.0, bottom), (x + 2.6, top)], thin());
            "varistor"
        }
    };
    let text = fitted((x - 4.2, middle + 0.9), word, LABEL_MM, 1.8, false, 16.0);
    group.text(Layer::Lettering, text.anchored(Anchor::End));
}

/// A filled triangle that points up.
fn triangle(group: &mut Group, (x, y): Point, half: f64) {
    let points = vec![(x, y - half), (x - 2.4, y + half), (x + 2.4, y + half)];
    group.shape(Layer::Device, Shape::Path { points, closed: true }, Some(thin()), Some(Ink::Text));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::Node;
    use WiringElement as W;
    use latchline_assess::door::circuit::Unknown;
    use latchline_assess::door::heights::height_range;
    use latchline_assess::door::modules::ModuleChain;
    use latchline_site::catalogue::Feed;
    use latchline_site::model::RelayContact;

    fn door(series: Vec<W>, across_contact: Vec<W>, across_lock: Option<Suppression>) -> DoorSheet {
        let dry = series.contains(&W::DriveInput);
        let opens = series.contains(&W::RelayNormallyClosed);
        let contact = if opens { RelayContact::NormallyClosed } else { RelayContact::NormallyOpen };
        let lock = LockSheet {
            number: 1,
            model: String::from("m"),
            title: String::from(
                "A lock with a title that is long enough to need to be fitted into its place",
            ),
            kind: if dry { LockKind::Gate } else { LockKind::Motor },
            power_loss: if opens { PowerLoss::Opens } else { PowerLoss::StaysShut },
            current_kind: Feed::Dc,
            cable: None,
            circuit: Err(Unknown::NotNeeded),
            calculation: Vec::new(),
            wiring: Wiring {
                feed: if dry { LockFeed::DryContact } else { LockFeed::Station },
                contact,
                required_contact: contact,
                coil_contact: None,
                series,
                across_contact,
                across_lock,
            },
            times: None,
            exit_button: Some(true),
            mechanical_escape: None,
            emergency_release: None,
            relay_on_secure_side: None,
            door_contact: Some(false),
            delayed_egress_s: None,
            cautions: Vec::new(),
        };
        DoorSheet {
            entrance: "the entrance with the long name".into(),
            place: String::new(),
            outdoors: false,
            station: String::new(),
            lock_outputs: 1,
            escape_route: Some(false),
            fire_interlock: Some(false),
            control_height_m: None,
            height_range: height_range(None),
            escape_rules: &[],
            modules: ModuleChain::default(),
            heater: None,
            lights: Vec::new(),
            light_output: None,
            alarm_inputs: Vec::new(),
            load: None,
            locks: vec![lock],
        }
    }

    fn doors() -> Vec<DoorSheet> {
        let full = vec![
            W::FeedOut,
            W::RelayNormallyClosed,
            W::ExitButtonNormallyClosed,
            W::EmergencyRelease,
            W::FireInterlock,
            W::Lock,
            W::FeedReturn,
        ];
        let open = vec![W::FeedOut, W::RelayNormallyOpen, W::Lock, W::FeedReturn];
        let dry = vec![W::DriveInput, W::RelayNormallyOpen, W::DriveInput];
        let button = vec![W::ExitButtonNormallyOpen];
        vec![
            door(full.clone(), Vec::new(), Some(Suppression::Diode)),
            door(full, Vec::new(), None),
            door(open.clone(), button.clone(), Some(Suppression::Varistor)),
            door(open, Vec::new(), Some(Suppression::Clamp)),
            door(dry, button, None),
        ]
    }

    #[test]
    fn no_text_lies_over_another_or_leaves_its_picture() {
        let frame = Area::new(0.0, 0.0, PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM);
        for door in doors() {
            let picture = wiring_picture(&door, &door.locks[0]);
            let mut texts = Vec::new();
            picture.visit(&mut |node| {
                if let Node::Text(text, _) = node {
                    texts.push((text.text.clone(), text.area()));
                }
            });
            assert!(texts.len() >= 5);
            for (index, (text, area)) in texts.iter().enumerate() {
                assert!(frame.contains(area), "{text} leaves the picture");
                for (other, second) in &texts[index + 1..] {
                    assert!(!area.overlaps(second), "{text} over {other}");
                }
            }
        }
    }

    #[test]
    fn no_wire_or_part_runs_through_a_text() {
        for door in doors() {
            let picture = wiring_picture(&door, &door.locks[0]);
            let mut texts = Vec::new();
            let mut lines = Vec::new();
            picture.visit(&mut |node| match node {
                Node::Text(text, _) => texts.push((text.text.clone(), text.area())),
                Node::Item(item) => {
                    if let Shape::Path { points, .. } = &item.shape {
                        lines
                            .extend(points.windows(2).map(|pair| Area::between(pair[0], pair[1]).grown(0.1)));
                    }
                }
                Node::Group(_) => {}
            });
            for (text, area) in &texts {
                assert!(lines.iter().all(|line| !line.overlaps(area)), "a line runs through {text}");
            }
        }
    }

    #[test]
    fn every_part_in_series_is_named_and_the_picture_says_its_chain() {
        for door in doors() {
            let picture = wiring_picture(&door, &door.locks[0]);
            let mut texts = Vec::new();
            picture.visit(&mut |node| {
                if let Node::Text(text, _) = node {
                    texts.push(text.text.clone());
                }
            });
            let named = |element: &W| match element {
                W::FeedOut | W::FeedReturn | W::DriveInput => true,
                W::Lock => texts.iter().any(|text| text == "motor lock"),
                other => texts.iter().any(|text| text == words(*other)),
            };
            assert!(door.locks[0].wiring.series.iter().all(named), "{texts:?}");
            assert!(door.locks[0].wiring.across_contact.iter().all(named), "{texts:?}");
            assert!(picture.role.title.is_some_and(|title| title.contains("relay")));
        }
    }
}
