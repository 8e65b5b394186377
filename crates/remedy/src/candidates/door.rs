//! Changes at the door: other locks, thicker lock cables, supplies of their own, contacts, times, door
//! stations with more to give.
//!
//! What decides how people get out is proposed, never taken for granted: a candidate may fit a button, a
//! release or a lock that opens without power, but none states that a handle or a fire interlock is there.

use super::places::set_model;
use super::prices::by_price;
use crate::bench::Bench;
use crate::candidate::{Candidate, metres, quoted};
use latchline_assess::door::own_supply::{LOCK_SUPPLY_TOLERANCE_PERCENT, LOCK_SUPPLY_VOLTAGES_V};
use latchline_assess::rules::codes;
use latchline_finding::{Argument, Change, Edit, EditStep, Finding};
use latchline_network::resistance::conductor_ohm_per_m;
use latchline_site::catalogue::{Cable, Feed, Lock, PowerLoss, StationModel};
use latchline_site::model::{Entrance, LockFeed, LockUse, RunStop};
use latchline_site::outdoors::is_made_for_door;
use latchline_site::ways::Ways;

/// Contact ratings of common relays (common practice, no source).
const RELAYS_A: [f64; 3] = [5.0, 10.0, 16.0];
/// Most locks beyond a port that get a supply of their own, one at a time.
const MOST_LOCKS: usize = 3;

/// One lock of the site file.
struct LockPlace<'a> {
    entrance: &'a Entrance,
    used: &'a LockUse,
    lock: &'a Lock,
    station: &'a StationModel,
    path: Vec<EditStep>,
}

impl LockPlace<'_> {
    fn change(&self, key: &str, change: Change) -> Edit {
        let mut path = self.path.clone();
        path.push(EditStep::from(key));
        Edit { changes: vec![(path, change)] }
    }

    fn set(&self, key: &str, value: impl Into<String>) -> Edit {
        self.change(key, Change::Set(value.into()))
    }
}

/// The lock that a finding is about, by its entrance and number.
fn lock_of<'a>(bench: &Bench<'a>, finding: &Finding) -> Option<LockPlace<'a>> {
    let site = bench.site;
    let element = finding.element.as_ref()?;
    let entrance = site.entrances.iter().find(|one| one.id == *element)?;
    let number = match finding.argument("number") {
        Some(Argument::Figure(figure)) => figure.value as usize,
        _ => 1,
    };
    lock_at(bench, entrance, number)
}

/// A lock by its entrance and its number, from 1.
fn lock_at<'a>(bench: &Bench<'a>, entrance: &'a Entrance, number: usize) -> Option<LockPlace<'a>> {
    let (site, element) = (bench.site, entrance.id.as_str());
    let used = entrance.locks.get(number.checked_sub(1)?)?;
    bench.written(&["entrances", element])?;
    let mut path = vec![EditStep::from("entrances"), EditStep::from(element)];
    if bench.written(&["entrances", element, "lock"]).is_some() {
        path.push(EditStep::from("lock"));
    } else {
        path.extend([EditStep::from("locks"), EditStep::from(number - 1)]);
    }
    let station = site.station_model(&site.stations[entrance.station]);
    Some(LockPlace { entrance, used, lock: site.lock(used), station, path })
}

/// Candidates for a finding about a lock.
pub(super) fn for_lock(bench: &Bench<'_>, finding: &Finding) -> Vec<Candidate> {
    let Some(at) = lock_of(bench, finding) else { return Vec::new() };
    let limit = finding.limit.map(|limit| limit.value);
    let mut list = Vec::new();
    match finding.code {
        codes::LOCK_VOLTAGE_TOO_LOW => {
            list.extend(two_pairs(bench, &at));
            list.extend(thicker_cables(bench, &at));
            list.extend(other_locks(bench, &at, |_| true));
            list.extend(own_supplies(&at));
        }
        codes::LOCK_VOLTAGE_TOO_HIGH => {
            list.extend(other_locks(bench, &at, |_| true));
            list.extend(own_supplies(&at));
        }
        codes::LOCK_CURRENT_KIND => {
            list.extend(other_locks(bench, &at, |_| true));
            list.extend(own_supplies(&at));
        }
        codes::LOCK_FEED_MISSING => {
            if at.station.lock_output_voltage.is_some() && at.used.feed.value != LockFeed::Station {
                list.push(Candidate::new("lock-from-the-door-station", at.set("feed", quoted("station"))));
            }
            list.extend(own_supplies(&at));
        }
        codes::LOCK_OUTPUT_OVERLOADED => {
            list.extend(other_locks(bench, &at, |lock| draws_less(lock, at.lock)));
            list.extend(own_supplies(&at));
        }
        codes::RELAY_OVERLOADED => {
            list.extend(other_locks(bench, &at, |lock| draws_less(lock, at.lock)));
            list.extend(other_door_stations(bench, at.entrance));
            list.extend(relays_between(&at, finding.value.map_or(0.0, |value| value.value)));
        }
        codes::LOCK_CONTACT_WIRING => {
            let contact = match at.lock.power_loss.value {
                PowerLoss::Opens => "normally-closed",
                PowerLoss::StaysShut => "normally-open",
            };
            list.push(Candidate::new("contact-as-the-lock-needs", at.set("contact", quoted(contact))));
        }
        codes::LOCK_DUTY_EXCEEDED => {
            if let Some(limit_s) = limit {
                list.push(Candidate::new("shorter-hold-time", at.set("hold_time", seconds(limit_s))));
            }
            list.extend(other_locks(bench, &at, |_| true));
        }
        codes::HOLD_TIME_OVERRIDDEN => {
            if let Some(value) = finding.value {
                list.push(Candidate::new("hold-time-as-set", at.set("hold_time", seconds(value.value))));
            }
        }
        codes::SUPPRESSION_MISSING | codes::SUPPRESSION_UNSUITABLE => list.extend(suppressors(&at)),
        codes::RELAY_ON_UNSECURE_SIDE => {
            list.push(Candidate::new("relay-inside", at.set("relay_on_secure_side", "true")).unpriced());
        }
        codes::EXIT_BUTTON_MISSING => {
            list.push(Candidate::new("exit-button", at.set("exit_button", "true")).unpriced());
            list.extend(on_its_cable(&at, "exit-button", "exit_button"));
        }
        codes::ESCAPE_DEPENDS_ON_BUS => {
            list.push(Candidate::new("emergency-release", at.set("emergency_release", "true")).unpriced());
            list.extend(on_its_cable(&at, "emergency-release", "emergency_release"));
        }
        codes::ESCAPE_FAIL_SECURE => list.extend(fail_safe_locks(bench, &at)),
        codes::DELAYED_EGRESS_TOO_LONG => {
            if let Some(limit_s) = limit {
                list.push(Candidate::new("shorter-delay", at.set("delayed_egress", seconds(limit_s))));
            }
        }
        _ => {}
    }
    list
}

/// A button with the cable to it, of the kind that leads to the lock: without one the lock's voltage could no longer be judged. Its length is a
/// guess that the change says.
fn on_its_cable(at: &LockPlace<'_>, part: &'static str, key: &str) -> Option<Candidate> {
    let kind = match part {
        "exit-button" => "exit-button-on-five-metres",
        _ => "emergency-release-on-five-metres",
    };
    let cable = at.used.cable.as_ref()?;
    if at.used.cables.iter().any(|one| one.to.value.word() == part) {
        return None;
    }
    // Beside those to other parts that are there.
    let there = at.used.cables.iter().map(|one| {
        let (to, cable) = (quoted(one.to.value.word()), quoted(&one.cable.value));
        let length = quoted(&metres(one.length.value.as_metres()));
        format!("{{ to = {to}, cable = {cable}, length = {length}, joints = {} }}", one.joints.value)
    });
    let new = format!("{{ to = {}, cable = {}, length = \"5 m\" }}", quoted(part), quoted(&cable.value));
    let cables: Vec<String> = there.chain([new]).collect();
    let cables = format!("[{}]", cables.join(", "));
    Some(Candidate::new(kind, at.set(key, "true").then(at.set("cables", cables))).unpriced())
}

/// Door stations of the same family, kind and medium, cheapest first.
pub(super) fn for_entrance(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let entrance = bench.site.entrances.iter().find(|one| one.id.as_str() == element);
    entrance.map_or(Vec::new(), |entrance| other_door_stations(bench, entrance))
}

pub(super) fn other_door_stations(bench: &Bench<'_>, entrance: &Entrance) -> Vec<Candidate> {
    let site = bench.site;
    let own = site.station_model(&site.stations[entrance.station]);
    let mut models: Vec<&StationModel> = site
        .catalogue
        .stations
        .values()
        .filter(|model| {
            model.head.name != own.head.name
                && model.family.value == own.family.value
                && model.kind.value == own.kind.value
        })
        // A door without a camera is another door.
        .filter(|model| model.media.value >= own.media.value)
        .collect();
    models.sort_by(|a, b| by_price(&a.head, &b.head));
    models
        .into_iter()
        .filter_map(|model| {
            let edit = set_model(bench, entrance.id.as_str(), &model.head.name)?;
            Some(Candidate::new("other-door-station", edit))
        })
        .collect()
}

/// Cables of less resistance that are made for where the lock's lies, cheapest first; then those that have it with two pairs in parallel.
fn thicker_cables(bench: &Bench<'_>, at: &LockPlace<'_>) -> Vec<Candidate> {
    let Some(own) = &at.used.cable else { return Vec::new() };
    let cables = &bench.site.catalogue.cables;
    let ohm_per_m = |cable: &Cable, pairs: u32| conductor_ohm_per_m(cable, 20.0) / f64::from(pairs.max(1));
    let pairs_now = at.used.pairs.value;
    let now_ohm_per_m = ohm_per_m(&cables[&own.value], pairs_now);
    let suits = |cable: &&Cable| cable.head.name != own.value && is_made_for_door(at.entrance, cable);
    let mut others: Vec<&Cable> = cables.values().filter(suits).collect();
    others.sort_by(|a, b| by_price(&a.head, &b.head));
    let on = |pairs: u32| {
        let thicker = others
            .iter()
            .filter(move |cable| cable.pairs.value >= pairs && ohm_per_m(cable, pairs) < now_ohm_per_m);
        thicker.map(move |cable| {
            let mut edit = at.set("cable", quoted(&cable.head.name));
            if pairs != pairs_now {
                edit = edit.then(at.set("pairs", pairs.to_string()));
            }
            let kind = if pairs > pairs_now { "two-pairs-to-the-lock" } else { "thicker-lock-cable" };
            Candidate::new(kind, edit)
        })
    };
    on(1).chain(on(2)).collect()
}

/// Two pairs of its cable in parallel, where it has as many and one is used.
fn two_pairs(bench: &Bench<'_>, at: &LockPlace<'_>) -> Option<Candidate> {
    let cable = &bench.site.catalogue.cables[&at.used.cable.as_ref()?.value];
    let is_free = at.used.pairs.value == 1 && cable.pairs.value > 1;
    is_free.then(|| Candidate::new("two-pairs-to-the-lock", at.set("pairs", String::from("2"))))
}

/// Locks of the same kind that do the same without power, cheapest first.
fn other_locks(bench: &Bench<'_>, at: &LockPlace<'_>, suits: impl Fn(&Lock) -> bool) -> Vec<Candidate> {
    let same = |lock: &Lock| {
        lock.kind.value == at.lock.kind.value && lock.power_loss.value == at.lock.power_loss.value
    };
    locks(bench, at, |lock| same(lock) && suits(lock))
        .map(|lock| Candidate::new("other-lock", at.set("model", quoted(&lock.head.name))))
        .collect()
}

/// Locks that open without power in place of one that stays shut; a strike for a strike.
fn fail_safe_locks(bench: &Bench<'_>, at: &LockPlace<'_>) -> Vec<Candidate> {
    locks(bench, at, |lock| {
        lock.power_loss.value == PowerLoss::Opens && lock.kind.value == at.lock.kind.value
    })
    .map(|lock| {
        let edit =
            at.set("model", quoted(&lock.head.name)).then(at.set("contact", quoted("normally-closed")));
        Candidate::new("fail-safe-lock", edit)
    })
    .collect()
}

fn locks<'a>(
    bench: &Bench<'a>,
    at: &LockPlace<'_>,
    suits: impl Fn(&Lock) -> bool,
) -> impl Iterator<Item = &'a Lock> {
    let mut locks: Vec<&Lock> = bench
        .site
        .catalogue
        .locks
        .values()
        .filter(|lock| lock.head.name != at.lock.head.name && suits(lock))
        .collect();
    locks.sort_by(|a, b| by_price(&a.head, &b.head));
    locks.into_iter()
}

fn draws_less(lock: &Lock, own: &Lock) -> bool {
    let peak = |lock: &Lock| {
        let amps = |value: &Option<latchline_finding::Sourced<latchline_finding::quantity::Current>>| {
            value.as_ref().map_or(0.0, |value| value.value.as_amps())
        };
        amps(&lock.current).max(amps(&lock.inrush_current))
    };
    peak(lock) < peak(own)
}

/// A supply of its own for the lock, switched by the station's relay: of the kind of current and near the
/// voltage that the lock is made for, the coil's spike taken care of. Where it has one, another: a tolerance written
/// to the one that is there would change the file and not the door.
fn own_supplies(at: &LockPlace<'_>) -> Vec<Candidate> {
    let Some(rated) = &at.lock.voltage else { return Vec::new() };
    if at.lock.kind.value.is_of_another_system() {
        return Vec::new();
    }
    let rated_v = rated.value.as_volts();
    let is_ac = at.lock.feed.value == Feed::Ac;
    let mut base = at
        .set("feed", quoted("own-supply"))
        .then(at.set("supply_tolerance", quoted(&format!("{LOCK_SUPPLY_TOLERANCE_PERCENT} %"))));
    if is_ac != at.used.supply_ac.value {
        base = base.then(at.set("supply_ac", is_ac.to_string()));
    }
    if at.used.suppression.is_none() || is_ac {
        base = base.then(at.set("suppression", quoted(if is_ac { "varistor" } else { "diode" })));
    }
    let has_one = at.used.feed.value == LockFeed::OwnSupply && at.used.supply_voltage.is_some();
    let same_kind = is_ac == at.used.supply_ac.value;
    let own_v = at.used.supply_voltage.as_ref().filter(|_| has_one && same_kind);
    let is_there = |supply_v: f64| own_v.is_some_and(|own| (own.value.as_volts() - supply_v).abs() < 0.05);
    let kind = if has_one { "other-lock-supply" } else { "lock-supply-of-its-own" };
    LOCK_SUPPLY_VOLTAGES_V
        .into_iter()
        .filter(|supply_v| (0.95..1.3).contains(&(supply_v / rated_v)) && !is_there(*supply_v))
        .map(|supply_v| {
            let voltage = at.set("supply_voltage", quoted(&format!("{supply_v} V")));
            Candidate::new(kind, base.clone().then(voltage)).unpriced()
        })
        .collect()
}

/// Locks that doors beyond a port feed, one at a time on a supply of its own: what a door takes while it holds its lock no longer comes over
/// the port.
pub(super) fn locks_beyond(bench: &Bench<'_>, port: &str) -> Vec<Candidate> {
    let site = bench.site;
    let ways = Ways::new(site);
    let is_port = |run: &usize| site.start_id(site.runs[*run].from).as_str() == port;
    let is_beyond = |entrance: &&Entrance| {
        let stop = RunStop::Station(entrance.station);
        let leads = |run: &usize| site.runs[*run].sections.iter().any(|section| section.to == stop);
        (0..site.runs.len()).find(leads).is_some_and(|run| ways.to_run(run).iter().any(is_port))
    };
    site.entrances
        .iter()
        .filter(is_beyond)
        .flat_map(|entrance| (1..=entrance.locks.len()).filter_map(|number| lock_at(bench, entrance, number)))
        .filter(|at| at.used.feed.value == LockFeed::Station)
        .take(MOST_LOCKS)
        .flat_map(|at| own_supplies(&at))
        .collect()
}

/// A relay of its own between station and lock, of the next contact rating.
fn relays_between(at: &LockPlace<'_>, peak_a: f64) -> Option<Candidate> {
    let rating_a = RELAYS_A.into_iter().find(|rating_a| *rating_a >= peak_a)?;
    let edit = at.set("relay_between", quoted(&format!("{rating_a} A")));
    Some(Candidate::new("relay-in-between", edit).unpriced())
}

/// What takes the coil's current: on direct current a diode or, faster, a clamp of twice the rated voltage;
/// on alternating current a varistor.
fn suppressors(at: &LockPlace<'_>) -> Vec<Candidate> {
    let fit = |kind: &'static str, word: &str, voltage_v: Option<f64>| {
        let mut edit = at.set("suppression", quoted(word));
        if let Some(voltage_v) = voltage_v {
            edit = edit.then(at.set("suppression_voltage", quoted(&format!("{voltage_v} V"))));
        }
        Candidate::new(kind, edit).unpriced()
    };
    let rated_v = at.lock.voltage.as_ref().map(|rated| rated.value.as_volts());
    let is_ac = at.used.feed.value == LockFeed::OwnSupply && at.used.supply_ac.value;
    if is_ac {
        // Above the crest of the rated voltage at the upper end of any tolerance.
        return vec![fit(
            "varistor-across-the-coil",
            "varistor",
            rated_v.map(|rated_v| (rated_v * 2.0).ceil()),
        )];
    }
    vec![
        fit("diode-across-the-coil", "diode", None),
        fit("clamp-across-the-coil", "clamp", rated_v.map(|rated_v| (rated_v * 2.0).ceil())),
    ]
}

fn seconds(value_s: f64) -> String {
    quoted(&format!("{value_s} s"))
}
