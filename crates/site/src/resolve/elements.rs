//! Supplies, boxes, entrances, dwellings and management stations.

use super::door::tables;
use super::names::NameIndex;
use super::places::PlaceIndex;
use super::scope::{Asked, ScopeCost};
use super::{PartKind, Resolver, STATED};
use crate::catalogue::{BoxRole, StationKind};
use crate::codes;
use crate::model::{
    DistributionBox, Dwelling, Entrance, EntranceRole, Management, Scope, Site, Station, StationOwner, Supply,
};
use crate::parse::{Entry, Record, Value, clip};
use latchline_finding::quantity::{Length, Resistance, Temperature, Voltage};
use latchline_finding::{ElementId, Sourced};
use latchline_words::reading::{Expected, thing};

impl Resolver<'_> {
    /// Fills in everything but the catalogue.
    pub(super) fn elements(&mut self, file: &Record<'_>, site: &mut Site) {
        let (buildings, places) = self.buildings(file);
        site.buildings = buildings;
        self.supplies(file, &places, site);
        self.boxes(file, "distributors", BoxRole::Distributor, &places, site);
        self.boxes(file, "branch-boxes", BoxRole::BranchBox, &places, site);
        self.dwellings(file, &places, site);
        self.entrances(file, &places, site);
        self.management(file, &places, site);
        let names = self.index_names(site);
        self.scopes(file, &names, &places, site);
        self.runs(file, &names, site);
    }

    fn supplies(&mut self, file: &Record<'_>, places: &PlaceIndex, site: &mut Site) {
        for entry in file.named("supplies") {
            let record = &entry.record;
            let supply = Supply {
                id: ElementId::new(entry.name),
                model: self.model(record, "model", PartKind::Supply, entry.name),
                place: self.place(record, entry.name, places),
                set_voltage: record.quantity("set_voltage", STATED, Voltage::from_volts),
                ambient: record.quantity("ambient", STATED, Temperature::from_celsius),
                batteries: record.integer("batteries", STATED).unwrap_or(Sourced::assumed(1)),
                origin: record.at(&entry.span),
            };
            site.supplies.push(supply);
        }
    }

    fn boxes(&mut self, file: &Record<'_>, key: &str, role: BoxRole, places: &PlaceIndex, site: &mut Site) {
        for entry in file.named(key) {
            let record = &entry.record;
            let model = self.model(record, "model", PartKind::Box, entry.name);
            let found = self.loader.catalogue.boxes.get(&model.value).map(|part| part.role.value);
            if let Some(found) = found.filter(|found| *found != role) {
                self.wrong_kind(&model, box_role_word(found), box_role_word(role), entry.name);
            }
            site.boxes.push(DistributionBox {
                id: ElementId::new(entry.name),
                model,
                place: self.place(record, entry.name, places),
                origin: record.at(&entry.span),
            });
        }
    }

    /// A model that must be there; reports it if it is not in the catalogue.
    pub(super) fn model(
        &mut self,
        record: &Record<'_>,
        key: &str,
        kind: PartKind,
        element: &str,
    ) -> Sourced<String> {
        match record.sourced_text(key, STATED) {
            Some(model) => {
                self.check_part(kind, &model, Some(element));
                model
            }
            None => Sourced::assumed(String::new()),
        }
    }

    /// A station's model: its own, or the default of `[site]`.
    fn station_model(
        &mut self,
        own: Option<Sourced<String>>,
        default: (&Record<'_>, &'static str),
        wanted: StationKind,
        entry: &Entry<'_>,
        key: &'static str,
    ) -> Sourced<String> {
        let (file, default_key) = default;
        let stated =
            own.or_else(|| file.table("site").and_then(|site| site.sourced_text(default_key, STATED)));
        let Some(model) = stated else {
            let head = file.table("site");
            let refused =
                entry.record.is_written(key) || head.is_some_and(|site| site.is_written(default_key));
            if !refused {
                let finding = self
                    .report(codes::MISSING_KEY, entry.record.at(&entry.span))
                    .about(entry.name)
                    .with("key", key)
                    .with("table", thing(entry.record.spec.name))
                    .with("expected", Expected::StationHereOrUnderSite { key: default_key }.both());
                self.findings.push(finding);
            }
            return Sourced::assumed(String::new());
        };
        if self.check_part(PartKind::Station, &model, Some(entry.name)) {
            let found = self.loader.catalogue.stations.get(&model.value).map(|part| part.kind.value);
            if let Some(found) = found.filter(|found| *found != wanted) {
                self.wrong_kind(&model, station_kind_word(found), station_kind_word(wanted), entry.name);
            }
        }
        model
    }

    fn wrong_kind(
        &mut self,
        part: &Sourced<String>,
        found: &'static str,
        expected: &'static str,
        element: &str,
    ) {
        if !self.reported.insert(part.origin.clone()) {
            return;
        }
        let finding = self
            .report(codes::WRONG_KIND_OF_PART, part.origin.clone())
            .about(clip(element).as_str())
            .with("name", clip(&part.value))
            .with("found", thing(found))
            .with("expected", thing(expected));
        self.findings.push(finding);
    }

    fn dwellings(&mut self, file: &Record<'_>, places: &PlaceIndex, site: &mut Site) {
        for (index, entry) in file.named("dwellings").iter().enumerate() {
            let record = &entry.record;
            let origin = record.at(&entry.span);
            let id = ElementId::new(entry.name);
            let own = record.sourced_text("station", STATED);
            let main =
                self.station_model(own, (file, "indoor_station"), StationKind::Indoor, entry, "station");
            let mut stations = vec![site.stations.len()];
            let owner = |ordinal| StationOwner::Dwelling { dwelling: index, ordinal };
            site.stations.push(Station {
                id: id.clone(),
                model: main,
                owner: owner(0),
                origin: origin.clone(),
            });
            for (at, item) in record.list("extensions").iter().enumerate() {
                let Value::Text(name) = item.value else { continue };
                let own = Sourced::new(name.to_string(), record.at(&item.span), STATED);
                let model = self.station_model(
                    Some(own),
                    (file, "indoor_station"),
                    StationKind::Indoor,
                    entry,
                    "extensions",
                );
                stations.push(site.stations.len());
                site.stations.push(Station {
                    id: ElementId::from(format!("{id}:{}", at + 2)),
                    model,
                    owner: owner(at + 1),
                    origin: record.at(&item.span),
                });
            }
            site.dwellings.push(Dwelling {
                id,
                label: record.text("label").map(str::to_string),
                place: self.place(record, entry.name, places),
                number: record.integer("number", STATED),
                stations,
                origin,
            });
        }
    }

    fn entrances(&mut self, file: &Record<'_>, places: &PlaceIndex, site: &mut Site) {
        let entries = file.named("entrances");
        for (index, entry) in entries.iter().enumerate() {
            let record = &entry.record;
            let origin = record.at(&entry.span);
            let id = ElementId::new(entry.name);
            let own = record.sourced_text("station", STATED);
            let model = self.station_model(own, (file, "door_station"), StationKind::Door, entry, "station");
            let mut place = self.place(record, entry.name, places);
            let truth = |key: &str| record.boolean(key, STATED).unwrap_or(Sourced::assumed(false));
            place.outdoors |= truth("outdoors").value;
            let usual_role = if entries.len() == 1 { EntranceRole::Main } else { EntranceRole::Secondary };
            let roles = [("main", EntranceRole::Main), ("secondary", EntranceRole::Secondary)];
            let accessories = self.accessories(record, entry.name);
            let locks = self.locks(entry);
            let lights = self.lights(record, entry.name);
            let alarm_inputs = self.alarm_inputs(record, entry.name);
            let station = site.stations.len();
            site.stations.push(Station {
                id: id.clone(),
                model,
                owner: StationOwner::Entrance(index),
                origin: origin.clone(),
            });
            site.entrances.push(Entrance {
                id,
                role: record.word("role", STATED, &roles).unwrap_or(Sourced::assumed(usual_role)),
                number: record.integer("number", STATED),
                place,
                station,
                calls: Scope::default(),
                locks,
                accessories,
                lights,
                alarm_inputs,
                escape_route: truth("escape_route"),
                fire_interlock: truth("fire_interlock"),
                control_height: record.quantity("control_height", STATED, Length::from_metres),
                heater: truth("heater"),
                surge_protection: record.quantity("surge_protection", STATED, Resistance::from_ohms),
                origin,
            });
        }
    }

    fn management(&mut self, file: &Record<'_>, places: &PlaceIndex, site: &mut Site) {
        for (index, entry) in file.named("management").iter().enumerate() {
            let record = &entry.record;
            let origin = record.at(&entry.span);
            let id = ElementId::new(entry.name);
            let own = record.sourced_text("model", STATED);
            let default = (file, "management_station");
            let model = self.station_model(own, default, StationKind::Management, entry, "model");
            let station = site.stations.len();
            site.stations.push(Station {
                id: id.clone(),
                model,
                owner: StationOwner::Management(index),
                origin: origin.clone(),
            });
            site.management.push(Management {
                id,
                number: record.integer("number", STATED),
                place: self.place(record, entry.name, places),
                station,
                calls: Scope::default(),
                origin,
            });
        }
    }

    fn scopes(&mut self, file: &Record<'_>, names: &NameIndex, places: &PlaceIndex, site: &mut Site) {
        let mut cost = ScopeCost::default();
        for (index, entry) in file.named("entrances").iter().enumerate() {
            let asked = Asked { element: entry.name, own: None, site, names, places };
            let calls = self.scope(&entry.record, "calls", &asked, &mut cost);
            let tells: Vec<Scope> = tables(&entry.record, "alarm_inputs")
                .map(|input| self.scope(input, "tells", &asked, &mut cost))
                .collect();
            let entrance = &mut site.entrances[index];
            entrance.calls = calls;
            for (input, tells) in entrance.alarm_inputs.iter_mut().zip(tells) {
                input.tells = tells;
            }
        }
        for (index, entry) in file.named("management").iter().enumerate() {
            let asked = Asked { element: entry.name, own: Some(index), site, names, places };
            let calls = self.scope(&entry.record, "calls", &asked, &mut cost);
            site.management[index].calls = calls;
        }
    }
}

fn box_role_word(role: BoxRole) -> &'static str {
    match role {
        BoxRole::Distributor => "distributor",
        BoxRole::BranchBox => "branch box",
    }
}

fn station_kind_word(kind: StationKind) -> &'static str {
    match kind {
        StationKind::Door => "door station",
        StationKind::Indoor => "indoor station",
        StationKind::Management => "management station",
    }
}
