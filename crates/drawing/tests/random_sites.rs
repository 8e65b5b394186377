//! Random sites: every element exactly once, nothing over anything, everything on the sheet.

use latchline_drawing::{
    SheetOptions, SheetSize, elevation, profiles, signal_sheets, start_up_sheets, switch_sheets,
    wiring_sheets,
};
use latchline_finding::{Language, Locale, Sources, Units};
use latchline_scene::{Area, Item, Layer, Node, Scene, Shape};
use latchline_scene::{Palette, dxf, svg};
use latchline_site::model::Site;
use proptest::prelude::*;
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// How the dwellings of a floor are wired.
#[derive(Debug, Clone, Copy)]
enum Wiring {
    Chain,
    Star,
    Branch,
    Split,
}

#[derive(Debug, Clone)]
struct Block {
    floors: Vec<(usize, Wiring)>,
    cores: usize,
    basement: bool,
    title: bool,
    outdoor_gate: bool,
}

fn block() -> impl Strategy<Value = Block> {
    let wiring =
        prop_oneof![Just(Wiring::Chain), Just(Wiring::Star), Just(Wiring::Branch), Just(Wiring::Split)];
    let floors = prop::collection::vec((0usize..9, wiring), 1..9);
    (floors, 1usize..3, any::<bool>(), any::<bool>(), any::<bool>()).prop_map(
        |(floors, cores, basement, title, outdoor_gate)| Block {
            floors,
            cores,
            basement,
            title,
            outdoor_gate,
        },
    )
}

/// Text of a site file; distributors cascade so that there is always a free port.
struct Writer {
    boxes: String,
    dwellings: String,
    entrances: String,
    runs: String,
    run: usize,
    count: usize,
    free: Vec<String>,
}

impl Writer {
    fn connect(&mut self, from: &str, to: &[String]) {
        self.run += 1;
        let stops: Vec<String> = to.iter().map(|stop| format!("\"{stop}\"")).collect();
        let (run, pairs) = (self.run, 1 + self.run % 2);
        let cable = ["pair-0.5", "pair-0.8", "flex-1.5"][self.run % 3];
        let _ = writeln!(
            self.runs,
            "W{run} = {{ from = \"{from}\", to = [{}], first = \"{} m\", spacing = \"6 m\", cable = \"{cable}\", pairs = {pairs}, existing = {} }}",
            stops.join(", "),
            3 + run % 30,
            run.is_multiple_of(5)
        );
    }

    fn port(&mut self, block: usize, place: &str) -> String {
        if self.free.len() == 1 {
            let from = self.free.remove(0);
            self.distributor(block, place, &from);
        }
        self.free.remove(0)
    }

    fn distributor(&mut self, block: usize, place: &str, from: &str) {
        self.count += 1;
        let name = format!("B{block}-D{}", self.count);
        let _ = writeln!(self.boxes, "{name} = {{ model = \"ostrel-d4\", place = \"{place}\" }}");
        self.connect(from, std::slice::from_ref(&name));
        self.free.extend((1..=4).map(|port| format!("{name}.{port}")));
    }
}

fn site_text(blocks: &[Block]) -> String {
    let (mut buildings, mut supplies, mut branches) = (String::new(), String::new(), String::new());
    let mut writer = Writer {
        boxes: String::new(),
        dwellings: String::new(),
        entrances: String::new(),
        runs: String::new(),
        run: 0,
        count: 0,
        free: Vec::new(),
    };
    for (number, block) in blocks.iter().enumerate() {
        let ground = usize::from(block.basement);
        let mut names: Vec<String> = if block.basement { vec![String::from("B1")] } else { Vec::new() };
        names.push(String::from("G"));
        names.extend((1..block.floors.len()).map(|floor| floor.to_string()));
        let listed: Vec<String> = names.iter().map(|name| format!("\"{name}\"")).collect();
        let cores = if block.cores > 1 { ", cores = [\"North\", \"South\"]" } else { "" };
        let title = if block.title { ", title = \"Höfe & <Gärten>\"" } else { "" };
        let _ = writeln!(buildings, "B{number} = {{ floors = [{}]{cores}{title} }}", listed.join(", "));
        let supply = format!("PS{number}");
        let _ = writeln!(
            supplies,
            "{supply} = {{ model = \"ostrel-ps-120\", place = \"B{number}/{}\" }}",
            names[0]
        );
        writer.free.clear();
        writer.distributor(number, &format!("B{number}/G"), &supply);
        let gate = format!("gate{number}");
        let place = if block.outdoor_gate { String::from("outdoors") } else { format!("B{number}/G") };
        let role = if number == 0 { "main" } else { "secondary" };
        let _ = writeln!(writer.entrances, "{gate} = {{ role = \"{role}\", place = \"{place}\" }}");
        let port = writer.port(number, &format!("B{number}/G"));
        writer.connect(&port, std::slice::from_ref(&gate));
        for (floor, (flats, wiring)) in block.floors.iter().enumerate() {
            let core = if block.cores > 1 { ["North/", "South/", ""][floor % 3] } else { "" };
            let place = format!("B{number}/{core}{}", names[ground + floor]);
            let mut here = Vec::new();
            for flat in 0..*flats {
                let name = if flat == 7 {
                    format!("B{number} Penthouse with roof terrace {floor}")
                } else {
                    format!("B{number}-{floor}{flat:02}")
                };
                let extension = if flat == 3 { ", extensions = [\"ostrel-v7\"]" } else { "" };
                let _ = writeln!(writer.dwellings, "\"{name}\" = {{ place = \"{place}\"{extension} }}");
                here.push(name.clone());
                if flat == 3 {
                    here.push(format!("{name}:2"));
                }
            }
            if here.is_empty() {
                continue;
            }
            let half = here.len() / 2;
            match wiring {
                Wiring::Star => {
                    for name in here {
                        let port = writer.port(number, &place);
                        writer.connect(&port, &[name]);
                    }
                }
                Wiring::Branch if half > 0 => {
                    let name = format!("B{number}-T{floor}");
                    let _ = writeln!(branches, "{name} = {{ model = \"ostrel-t2\", place = \"{place}\" }}");
                    let port = writer.port(number, &place);
                    writer.connect(&port, std::slice::from_ref(&name));
                    writer.connect(&format!("{name}.1"), &here[..half]);
                    writer.connect(&format!("{name}.2"), &here[half..]);
                }
                Wiring::Split if half > 0 => {
                    let port = writer.port(number, &place);
                    writer.connect(&port, &here[..half]);
                    writer.connect(&here[0].clone(), &here[half..]);
                }
                _ => {
                    let port = writer.port(number, &place);
                    writer.connect(&port, &here);
                }
            }
        }
    }
    let table =
        |name: &str, lines: &str| if lines.is_empty() { String::new() } else { format!("[{name}]\n{lines}") };
    [
        String::from(
            "[site]\ntitle = \"Random\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\n",
        ),
        table("buildings", &buildings),
        table("supplies", &supplies),
        table("distributors", &writer.boxes),
        table("branch-boxes", &branches),
        table("entrances", &writer.entrances),
        table("dwellings", &writer.dwellings),
        table("runs", &writer.runs),
    ]
    .concat()
}

fn resolved(text: &str) -> Site {
    let mut sources = Sources::new();
    let file = sources.add("random site", text.to_string());
    let (name, catalogue) = latchline_site::builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let resolved = latchline_site::resolve(&sources, file, &[catalogue]);
    resolved.site.unwrap_or_else(|| panic!("{:#?}\n{text}", resolved.findings))
}

/// Texts, cards and straight pieces of runs of a sheet.
#[derive(Default)]
struct Parts {
    texts: Vec<(String, Area)>,
    cards: Vec<Area>,
    wires: Vec<(Area, String)>,
}

fn parts(scene: &Scene) -> Parts {
    let mut parts = Parts::default();
    scene.root.visit(&mut |node| match node {
        Node::Text(text, _) => parts.texts.push((text.text.clone(), text.area())),
        Node::Item(Item { shape: Shape::Rectangle { area, .. }, layer: Layer::Device, .. })
            if area.width > 20.0 =>
        {
            parts.cards.push(*area);
        }
        Node::Item(Item {
            shape: Shape::Path { points, closed: false },
            layer: Layer::Wiring | Layer::Curve | Layer::Axis,
            ..
        }) => {
            for pair in points.windows(2) {
                // The box of a slanting line is much more than the line: take it in short pieces.
                let (a, b) = (pair[0], pair[1]);
                let at = |step: i32| {
                    let share = f64::from(step) / 64.0;
                    (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share)
                };
                let slants = (a.0 - b.0).abs() > 1e-6 && (a.1 - b.1).abs() > 1e-6;
                let steps = if slants { 64 } else { 1 };
                for step in 0..steps {
                    let piece =
                        if slants { Area::between(at(step), at(step + 1)) } else { Area::between(a, b) };
                    parts.wires.push((piece.grown(0.05), format!("{pair:?}")));
                }
            }
        }
        _ => {}
    });
    parts
}

/// Says what lies over what; nothing may.
fn overlaps(scene: &Scene) -> Vec<String> {
    let Parts { texts, cards, wires } = parts(scene);
    let sheet = Area::new(0.0, 0.0, scene.width_mm, scene.height_mm);
    let mut found = Vec::new();
    for (number, (words, area)) in texts.iter().enumerate() {
        if !sheet.contains(area) {
            found.push(format!("\"{words}\" leaves the sheet: {area:?}"));
        }
        // Boxes of neighbouring lines may touch.
        let area = area.grown(-0.06);
        for (others, other) in &texts[number + 1..] {
            if area.overlaps(other) {
                found.push(format!("\"{words}\" over \"{others}\""));
            }
        }
        for (wire, name) in &wires {
            if area.overlaps(wire) {
                found.push(format!("\"{words}\" {area:?} on the line {name}"));
            }
        }
        for card in &cards {
            if area.overlaps(card) && !card.contains(&area) {
                found.push(format!("\"{words}\" half on a card"));
            }
        }
    }
    for (number, card) in cards.iter().enumerate() {
        // A line may end on the edge of a card.
        let inner = card.grown(-0.2);
        if let Some((_, name)) = wires.iter().find(|(wire, _)| inner.overlaps(wire)) {
            found.push(format!("a line through a card: {name}"));
        }
        if cards[number + 1..].iter().any(|other| other.overlaps(card)) {
            found.push(format!("two cards on each other: {card:?}"));
        }
    }
    found
}

fn sorted(mut names: Vec<String>) -> Vec<String> {
    names.sort();
    names
}

fn locale() -> impl Strategy<Value = Locale> {
    let language = prop_oneof![Just(Language::English), Just(Language::German)];
    let units = prop_oneof![Just(Units::Metric), Just(Units::Us)];
    (language, units).prop_map(|(language, units)| Locale { language, units })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, max_shrink_iters: 40, ..ProptestConfig::default() })]
    #[test]
    fn every_element_is_drawn_once_and_nothing_covers_anything(
        blocks in prop::collection::vec(block(), 1..5),
        sheet in prop_oneof![Just(None), Just(Some(SheetSize::A4)), Just(Some(SheetSize::A3)), Just(Some(SheetSize::PHONE))],
        locale in locale(),
    ) {
        let site = resolved(&site_text(&blocks));
        let assessment = latchline_assess::assess(&site);
        let options = SheetOptions { sheet, locale, ..Default::default() };
        let scenes = elevation(&site, &assessment, &options);
        let drawn: Vec<String> =
            scenes.iter().flat_map(|scene| scene.root.elements()).map(str::to_string).collect();
        let expected: Vec<String> = site.supplies.iter().map(|supply| supply.id.to_string())
            .chain(site.boxes.iter().map(|entry| entry.id.to_string()))
            .chain(site.stations.iter().map(|station| station.id.to_string()))
            .chain(site.runs.iter().map(|run| run.id.to_string()))
            .collect();
        prop_assert_eq!(sorted(drawn), sorted(expected));
        for scene in &scenes {
            let found = overlaps(scene);
            prop_assert!(found.is_empty(), "{}: {:#?}", scene.title, found);
        }
        // The same input gives the same bytes.
        let again = elevation(&site, &assessment, &options);
        prop_assert_eq!(&scenes, &again);
    }

    #[test]
    fn profiles_and_switch_cards_stay_readable(
        blocks in prop::collection::vec(block(), 1..4),
        phone in any::<bool>(),
        locale in locale(),
    ) {
        let site = resolved(&site_text(&blocks));
        let assessment = latchline_assess::assess(&site);
        let sheet = phone.then_some(SheetSize::PHONE);
        for scene in profiles(&site, &assessment, &SheetOptions { sheet, locale, ..Default::default() }) {
            let found = overlaps(&scene);
            prop_assert!(found.is_empty(), "{}: {:#?}", scene.title, found);
        }
        let options = SheetOptions { locale, ..Default::default() };
        let cards = switch_sheets(&site, &assessment.addresses, &options);
        let drawn: Vec<String> =
            cards.iter().flat_map(|scene| scene.root.elements()).map(str::to_string).collect();
        let expected = site.stations.iter().zip(&assessment.addresses.stations)
            .filter(|(_, address)| address.numbers.is_some()).map(|(station, _)| station.id.to_string()).collect();
        prop_assert_eq!(sorted(drawn), sorted(expected));
        for scene in &cards {
            let found = overlaps(scene);
            prop_assert!(found.is_empty(), "{}: {:#?}", scene.title, found);
        }
    }
}

#[test]
fn both_backends_take_strange_names() {
    let mut blocks = vec![Block {
        floors: vec![(8, Wiring::Chain), (4, Wiring::Star)],
        cores: 2,
        basement: true,
        title: true,
        outdoor_gate: true,
    }];
    blocks.push(blocks[0].clone());
    let site = resolved(&site_text(&blocks));
    let assessment = latchline_assess::assess(&site);
    let scenes = elevation(&site, &assessment, &SheetOptions::default());
    let svg: String = scenes.iter().map(|scene| svg::svg(scene, Palette::Dark)).collect();
    assert!(svg.contains(">B0 \u{b7} H\u{f6}fe &amp; &lt;G\u{e4}rten&gt;</text>"), "{svg}");
    let dxf: String = scenes.iter().map(dxf::dxf).collect();
    // Files of release 2007 and later are UTF-8.
    assert!(dxf.contains("B0 \u{b7} H\u{f6}fe & <G\u{e4}rten>"));
}

/// In a German drawing no English word is left of those that the English one is lettered with.
#[test]
fn a_german_drawing_is_german_throughout() {
    let block = Block {
        floors: vec![(8, Wiring::Chain), (4, Wiring::Star), (5, Wiring::Branch), (6, Wiring::Split)],
        cores: 2,
        basement: true,
        title: false,
        outdoor_gate: true,
    };
    let site = resolved(&site_text(&[block.clone(), block]));
    let assessment = latchline_assess::assess(&site);
    let words = |language| -> BTreeSet<String> {
        let locale = Locale { language, units: Units::Metric };
        let options = SheetOptions { sheet: Some(SheetSize::A4), locale, ..Default::default() };
        let scenes = [
            elevation(&site, &assessment, &options),
            profiles(&site, &assessment, &options),
            signal_sheets(&site, &assessment, &options),
            start_up_sheets(&site, &assessment, &options),
            switch_sheets(&site, &assessment.addresses, &options),
            wiring_sheets(&site, &assessment, &options),
        ];
        let mut words = BTreeSet::new();
        for scene in scenes.iter().flatten() {
            assert_eq!(scene.language, language);
            let mut said = vec![scene.title.clone(), scene.description.clone()];
            scene.root.visit(&mut |node| match node {
                Node::Text(text, _) => said.push(text.text.clone()),
                Node::Group(group) => said.extend(group.role.title.clone()),
                Node::Item(_) => {}
            });
            let said = said.iter().flat_map(|text| text.split(|sign: char| !sign.is_alphabetic()));
            words.extend(said.filter(|word| word.chars().count() > 2).map(str::to_lowercase));
        }
        words
    };
    let (english, german) = (words(Language::English), words(Language::German));
    // What stands in the site file, and what is printed on devices.
    let own = [
        "block",
        "door",
        "flat",
        "gate",
        "house",
        "north",
        "ostrel",
        "out",
        "penthouse",
        "random",
        "roof",
        "set",
        "south",
        "tens",
        "terrace",
        "units",
        "video",
        "with",
    ];
    // The same word in both languages; a station may be shortened.
    let shared =
        ["audio", "bus", "khz", "link", "mhz", "ohm", "person", "sha", "signal", "stati", "station", "video"];
    let same = english.intersection(&german).map(String::as_str);
    let left: Vec<&str> = same.filter(|word| !own.contains(word) && !shared.contains(word)).collect();
    assert!(left.is_empty(), "left in English: {left:?}");
    assert!(english.len() > 60 && german.len() > 60, "{} {}", english.len(), german.len());
}

/// German words of findings stand whole on a card: they take a second line rather than lose their middle.
#[test]
fn what_is_wrong_with_a_device_is_said_whole_in_german() {
    let block = Block {
        floors: vec![(4, Wiring::Chain), (3, Wiring::Star)],
        cores: 1,
        basement: false,
        title: false,
        outdoor_gate: true,
    };
    let site = resolved(&site_text(&[block]));
    let assessment = latchline_assess::assess(&site);
    let locale = Locale { language: Language::German, units: Units::Metric };
    let scenes = elevation(&site, &assessment, &SheetOptions { locale, ..Default::default() });
    let lettered: Vec<&str> = scenes.iter().flat_map(Scene::lettering).collect();
    assert!(lettered.iter().any(|text| text.starts_with("über 30 V")), "{lettered:?}");
    let cut: Vec<&&str> = lettered.iter().filter(|text| text.contains('…')).collect();
    assert!(cut.is_empty(), "{cut:?}");
}

#[test]
fn a_site_with_nothing_in_it_gives_an_empty_sheet() {
    let site = resolved("[site]\ntitle = \"Empty\"\nfamily = \"ostrel-48\"\n");
    let assessment = latchline_assess::assess(&site);
    let scenes = elevation(&site, &assessment, &SheetOptions::default());
    assert_eq!(scenes.len(), 1);
    assert_eq!(profiles(&site, &assessment, &SheetOptions::default()).len(), 1);
    assert_eq!(switch_sheets(&site, &assessment.addresses, &SheetOptions::default()).len(), 1);
}
