//! A number for every device.
//!
//! Two rounds in the order of the site file: first a stated number is kept, and a number in a name taken if it is free; then the
//! rest get the lowest that are left. So nobody gets the number on another one's door: of `3A` and `3B` the first gets 3, and 4 stays 4.
//! Adding a dwelling at the end of the file changes no number but one that was left over and is now stated or said by the new name; numbers
//! of what is built are kept by stating them (`latchline addresses --freeze`). Where two want one number, the later one yields, or, if its
//! number is stated, is told.

use super::buses::buses_of_buildings;
use super::plan::{AddressPlan, DeviceClass, StationAddress, class_of, field_word, fields_of};
use super::pool::{Holder, Pool, number_in_name};
use super::told::{chosen, mark_doubles, not_of_name};
use super::{highest_number, settings};
use crate::catalogue::{AddressField, FieldKind};
use crate::codes;
use crate::model::{Entrance, EntranceRole, Site, StationOwner};
use latchline_finding::{ElementId, Figure, Finding, Origin, Severity, Sourced};
use std::collections::{BTreeMap, BTreeSet};

/// Numbers every device of the site by the scheme of its family.
pub fn assign(site: &Site) -> AddressPlan {
    let mut assigner =
        Assigner { site, findings: Vec::new(), repeated: BTreeSet::new(), claimed_twice: Vec::new() };
    let buildings = assigner.buildings();
    let dwellings = assigner.dwellings(&buildings);
    let entrances = assigner.entrances(&buildings);
    let management = assigner.management();
    let mut plan = AddressPlan {
        stations: Vec::new(),
        buildings,
        dwellings,
        entrances,
        management,
        chosen: Vec::new(),
        findings: Vec::new(),
    };
    plan.chosen = chosen(site, &plan.dwellings);
    for station in 0..site.stations.len() {
        let address = assigner.station(station, &plan);
        plan.stations.push(address);
    }
    mark_doubles(site, &assigner.claimed_twice, &mut plan.stations);
    plan.findings = assigner.findings;
    plan.findings.extend(not_of_name(site, &plan.chosen));
    plan
}

struct Assigner<'s> {
    site: &'s Site,
    findings: Vec<Finding>,
    /// Buildings with the number of one on another bus.
    repeated: BTreeSet<usize>,
    /// Who was given a number, and who had it already.
    claimed_twice: Vec<(ElementId, ElementId)>,
}

/// A building number, and the building where another bus has the same.
type Shared = (Option<u32>, Option<usize>);

/// What is to be numbered.
struct Claim<'c> {
    id: &'c ElementId,
    origin: &'c Origin,
    stated: Option<&'c Sourced<u32>>,
    use_name: bool,
}

/// Numbers go first to who has one stated or in the name, then to the rest: so that nobody gets the number on another one's door.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Round {
    Own,
    Left,
}

impl Round {
    const ALL: [Round; 2] = [Round::Own, Round::Left];
}

impl<'s> Assigner<'s> {
    fn field(&self, class: DeviceClass, kind: FieldKind) -> Option<&'s AddressField> {
        fields_of(self.site, class).iter().find(|field| field.kind == kind)
    }

    fn building_field(&self) -> Option<&'s AddressField> {
        [DeviceClass::Indoor, DeviceClass::Door, DeviceClass::Management]
            .into_iter()
            .find_map(|class| self.field(class, FieldKind::Building))
    }

    /// What a claim gets in a round; `None` if it is not its turn.
    fn claim_in(
        &mut self,
        round: Round,
        pool: &mut Pool<'_>,
        field: &AddressField,
        claim: &Claim<'_>,
    ) -> Option<Option<u32>> {
        match (round, claim.stated) {
            (Round::Own, Some(_)) | (Round::Left, None) => Some(self.claim(pool, field, claim)),
            (Round::Own, None) if claim.use_name => {
                let holder = Holder { id: claim.id.clone(), origin: claim.origin.clone() };
                Some(Some(pool.take_if_free(number_in_name(claim.id.as_str())?, holder)?))
            }
            _ => None,
        }
    }

    /// A number for one claim: stated, else from its name, else the lowest free one.
    fn claim(&mut self, pool: &mut Pool<'_>, field: &AddressField, claim: &Claim<'_>) -> Option<u32> {
        let holder = Holder {
            id: claim.id.clone(),
            origin: claim.stated.map_or(claim.origin.clone(), |stated| stated.origin.clone()),
        };
        let Some(stated) = claim.stated else {
            let named = if claim.use_name { number_in_name(claim.id.as_str()) } else { None };
            let found = named
                .and_then(|number| pool.take_if_free(number, holder.clone()))
                .or_else(|| pool.take_lowest(holder));
            if found.is_none() {
                let exhausted = match field.kind {
                    FieldKind::Building => {
                        let room = field.last.value - field.first.value + 1;
                        self.finding(codes::TOO_MANY_BUILDINGS, claim, field)
                            .with("buildings", self.site.buildings.len())
                            .with("room", room as usize)
                    }
                    _ => self
                        .finding(codes::ADDRESSES_EXHAUSTED, claim, field)
                        .with("first", field.first.value as usize)
                        .with("last", field.last.value as usize),
                };
                self.findings.push(exhausted.also_at("limit-from", field.last.origin.clone()));
            }
            return found;
        };
        let number = stated.value;
        if let Some(finding) = self.unusable(field, claim, number) {
            self.findings.push(finding);
            return None;
        }
        if let Some(other) = pool.holder(number) {
            let finding = self
                .finding(codes::ADDRESS_DUPLICATE, claim, field)
                .with("number", number as usize)
                .with("other", &other.id)
                .also_at("other-device", other.origin.clone());
            self.findings.push(finding);
            // A building is no device: what stands in it is compared by itself.
            if field.kind != FieldKind::Building {
                self.claimed_twice.push((claim.id.clone(), other.id.clone()));
            }
        }
        pool.take(number, holder);
        Some(number)
    }

    fn finding(&self, code: latchline_finding::Code, claim: &Claim<'_>, field: &AddressField) -> Finding {
        let origin = claim.stated.map_or(claim.origin, |stated| &stated.origin);
        Finding::new(code, Severity::Error, origin.clone())
            .about(claim.id.clone())
            .with("field", field_word(field.kind).both())
    }

    /// Why a stated number cannot be used at all.
    fn unusable(&self, field: &AddressField, claim: &Claim<'_>, number: u32) -> Option<Finding> {
        let (first, last) = (field.first.value, field.last.value);
        let mut finding = if !(first..=last).contains(&number) {
            let limit = if number < first { first } else { last };
            let mut finding = self
                .finding(codes::ADDRESS_OUT_OF_RANGE, claim, field)
                .with("number", number as usize)
                .with("first", first as usize)
                .with("last", last as usize);
            finding.limit = Some(Figure::count(limit as usize));
            finding
        } else if field.reserved.contains(&number) {
            self.finding(codes::ADDRESS_RESERVED, claim, field).with("number", number as usize)
        } else if settings(field, number).is_none() {
            self.finding(codes::ADDRESS_NOT_EXPRESSIBLE, claim, field)
                .with("number", number as usize)
                .with("highest", highest_number(field) as usize)
        } else {
            return None;
        };
        finding.value = Some(Figure::count(number as usize));
        Some(finding.also_at("limit-from", field.last.origin.clone()))
    }

    fn buildings(&mut self) -> Vec<Option<u32>> {
        let Some(field) = self.building_field() else { return vec![None; self.site.buildings.len()] };
        // A building that is "the main one" is a building like others: the first.
        let field = AddressField { main: None, ..field.clone() };
        let mut pool = Pool::new(&field);
        let site = self.site;
        let mut buses: Option<Vec<BTreeSet<usize>>> = None;
        let mut numbers: Vec<Option<u32>> = Vec::with_capacity(site.buildings.len());
        for (index, building) in site.buildings.iter().enumerate() {
            if building.number.is_none() && pool.is_exhausted() {
                // Buses that no wire joins know nothing of each other's numbers.
                let buses = buses.get_or_insert_with(|| buses_of_buildings(site));
                let apart = |number: &u32| {
                    let holders = (0..index).filter(|other| numbers[*other] == Some(*number));
                    pool.is_usable(*number)
                        && !buses[index].is_empty()
                        && holders.into_iter().all(|other| buses[other].is_disjoint(&buses[index]))
                };
                if let Some(number) = (field.first.value..=field.last.value).find(apart) {
                    numbers.push(Some(number));
                    self.repeated.insert(index);
                    continue;
                }
            }
            let claim = Claim {
                id: &building.id,
                origin: &building.origin,
                stated: building.number.as_ref(),
                use_name: false,
            };
            numbers.push(self.claim(&mut pool, &field, &claim));
        }
        self.tell_repeated(&numbers);
        numbers
    }

    /// One finding of all buildings with the number of another one.
    fn tell_repeated(&mut self, numbers: &[Option<u32>]) {
        let Some(first) = self.repeated.first().map(|first| &self.site.buildings[*first]) else { return };
        let one = |index: &usize| {
            numbers[*index].map(|number| format!("{} ({number})", self.site.buildings[*index].id))
        };
        let repeated: Vec<String> = self.repeated.iter().filter_map(one).collect();
        let finding = Finding::new(codes::ADDRESS_REPEATED, Severity::Advice, first.origin.clone())
            .about(first.id.clone())
            .with("buildings", repeated.len())
            .with("numbers", repeated);
        self.findings.push(finding);
    }

    /// What shares its numbers: a building number, of one building alone where another bus has it, too.
    fn shared(&self, building: Option<usize>, buildings: &[Option<u32>]) -> Shared {
        (self.building_number(building, buildings), building.filter(|index| self.repeated.contains(index)))
    }

    /// The building number under which something is addressed. What stands in no building
    /// belongs to the first one.
    fn building_number(&self, building: Option<usize>, buildings: &[Option<u32>]) -> Option<u32> {
        match building {
            Some(index) => buildings[index],
            None => buildings
                .first()
                .copied()
                .unwrap_or_else(|| self.building_field().map(|field| field.first.value)),
        }
    }

    fn dwellings(&mut self, buildings: &[Option<u32>]) -> Vec<Option<u32>> {
        let site = self.site;
        let Some(field) = self.field(DeviceClass::Indoor, FieldKind::Dwelling) else {
            return vec![None; site.dwellings.len()];
        };
        let by_building = self.field(DeviceClass::Indoor, FieldKind::Building).is_some();
        let mut pools: BTreeMap<Option<Shared>, Pool<'_>> = BTreeMap::new();
        let mut numbers: Vec<Option<Option<u32>>> = vec![None; site.dwellings.len()];
        for round in Round::ALL {
            for (index, dwelling) in site.dwellings.iter().enumerate() {
                let group = by_building.then(|| self.shared(dwelling.place.building, buildings));
                let pool = pools.entry(group).or_insert_with(|| Pool::new(field));
                let claim = Claim {
                    id: &dwelling.id,
                    origin: &dwelling.origin,
                    stated: dwelling.number.as_ref(),
                    use_name: true,
                };
                if numbers[index].is_none() {
                    numbers[index] = self.claim_in(round, pool, field, &claim);
                }
            }
        }
        numbers.into_iter().map(Option::flatten).collect()
    }

    fn entrances(&mut self, buildings: &[Option<u32>]) -> Vec<Option<u32>> {
        let site = self.site;
        let Some(field) = self.field(DeviceClass::Door, FieldKind::Entrance) else {
            return vec![None; site.entrances.len()];
        };
        let by_building = self.field(DeviceClass::Door, FieldKind::Building).is_some();
        let mut pools: BTreeMap<Option<Shared>, Pool<'_>> = BTreeMap::new();
        let mut numbers: Vec<Option<Option<u32>>> = vec![None; site.entrances.len()];
        for round in Round::ALL {
            for (index, entrance) in site.entrances.iter().enumerate() {
                let group = by_building.then(|| self.shared(entrance.place.building, buildings));
                let pool = pools.entry(group).or_insert_with(|| Pool::new(field));
                let main = field.main.filter(|main| {
                    entrance.role.value == EntranceRole::Main
                        && entrance.number.as_ref().is_none_or(|stated| stated.value == *main)
                });
                if numbers[index].is_some() {
                    continue;
                }
                numbers[index] = match main {
                    Some(main) => Some(Some(self.main_entrance(pool, entrance, main))),
                    None => {
                        let claim = Claim {
                            id: &entrance.id,
                            origin: &entrance.origin,
                            stated: entrance.number.as_ref(),
                            use_name: true,
                        };
                        self.claim_in(round, pool, field, &claim)
                    }
                };
            }
        }
        numbers.into_iter().map(Option::flatten).collect()
    }

    /// The number kept for the main entrance; told where another has it.
    fn main_entrance(&mut self, pool: &mut Pool<'_>, entrance: &Entrance, main: u32) -> u32 {
        if let Some(other) = pool.holder(main) {
            let finding = Finding::new(codes::TWO_MAIN_ENTRANCES, Severity::Error, entrance.origin.clone())
                .about(entrance.id.clone())
                .with("number", main as usize)
                .with("other", &other.id)
                .also_at("other-device", other.origin.clone());
            self.findings.push(finding);
            self.claimed_twice.push((entrance.id.clone(), other.id.clone()));
        }
        pool.take(main, Holder { id: entrance.id.clone(), origin: entrance.origin.clone() });
        main
    }

    fn management(&mut self) -> Vec<Option<u32>> {
        let site = self.site;
        let Some(field) = self.field(DeviceClass::Management, FieldKind::Management) else {
            return vec![None; site.management.len()];
        };
        let mut pool = Pool::new(field);
        let mut numbers: Vec<Option<Option<u32>>> = vec![None; site.management.len()];
        for round in Round::ALL {
            for (index, management) in site.management.iter().enumerate() {
                let claim = Claim {
                    id: &management.id,
                    origin: &management.origin,
                    stated: management.number.as_ref(),
                    use_name: true,
                };
                if numbers[index].is_none() {
                    numbers[index] = self.claim_in(round, &mut pool, field, &claim);
                }
            }
        }
        numbers.into_iter().map(Option::flatten).collect()
    }

    fn station(&mut self, index: usize, plan: &AddressPlan) -> StationAddress {
        let site = self.site;
        let station = &site.stations[index];
        let class = class_of(station.owner);
        let building = site.station_place(station).building;
        let fields = fields_of(site, class);
        let mut numbers = Some(Vec::with_capacity(fields.len()));
        let mut has_extension_field = false;
        for field in fields {
            let number = match (field.kind, station.owner) {
                (FieldKind::Building, _) => self.building_number(building, &plan.buildings),
                (FieldKind::Dwelling, StationOwner::Dwelling { dwelling, .. }) => plan.dwellings[dwelling],
                (FieldKind::Extension, StationOwner::Dwelling { ordinal, .. }) => {
                    has_extension_field = true;
                    self.extension(field, ordinal, index)
                }
                (FieldKind::Entrance, StationOwner::Entrance(entrance)) => plan.entrances[entrance],
                (FieldKind::Management, StationOwner::Management(management)) => plan.management[management],
                // A field that has no meaning for this class stays at its main or lowest number.
                _ => Some(field.main.unwrap_or(field.first.value)),
            };
            numbers = numbers.zip(number).map(|(mut list, number)| {
                list.push(number);
                list
            });
        }
        if let StationOwner::Dwelling { ordinal: 1.., dwelling } = station.owner
            && !has_extension_field
            && !fields.is_empty()
            && !site.family().addresses.extensions_share_address
        {
            self.no_room(index, site.dwellings[dwelling].stations.len(), 1);
            numbers = None;
        }
        StationAddress { station: index, class, numbers, doubles: Vec::new() }
    }

    /// The number of a station within its dwelling: the main one's, or the next of the others.
    fn extension(&mut self, field: &AddressField, ordinal: usize, station: usize) -> Option<u32> {
        let usable = |number: &u32| !field.reserved.contains(number) && settings(field, *number).is_some();
        let main = field.main.filter(usable);
        let mut numbers = main.into_iter().chain(
            (field.first.value..=field.last.value).filter(|number| Some(*number) != main).filter(usable),
        );
        let found = numbers.nth(ordinal);
        if found.is_none() {
            let StationOwner::Dwelling { dwelling, .. } = self.site.stations[station].owner else {
                return None;
            };
            let room = (field.first.value..=field.last.value).filter(usable).count();
            self.no_room(station, self.site.dwellings[dwelling].stations.len(), room);
        }
        found
    }

    fn no_room(&mut self, station: usize, stations: usize, room: usize) {
        let station = &self.site.stations[station];
        let mut finding =
            Finding::new(codes::EXTENSION_WITHOUT_ROOM, Severity::Error, station.origin.clone())
                .about(station.id.clone())
                .with("stations", stations)
                .with("room", room);
        finding.value = Some(Figure::count(stations));
        finding.limit = Some(Figure::count(room));
        self.findings.push(finding);
    }
}
