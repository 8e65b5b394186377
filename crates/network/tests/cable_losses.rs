//! A cable of which a data sheet gives losses and no constants.

use latchline_circuit::signal::{Line, LineLaw, PlainLine};
use latchline_finding::Sources;
use latchline_network::resistance::conductor_ohm_per_m;
use latchline_network::signal_tree::pair_constants;
use latchline_site::LoadedCatalogues;

/// Insertion loss of category 5e in dB per 100 m at 20 °C, TIA-568 (as printed).
const CATEGORY_5E: [(f64, f64); 7] =
    [(0.772, 1.8), (1.0, 2.0), (4.0, 4.1), (10.0, 6.5), (16.0, 8.2), (31.25, 11.7), (62.5, 17.0)];

fn catalogue(losses: &[(f64, f64)], rest: &str) -> (Sources, LoadedCatalogues) {
    let rows: Vec<String> = losses
        .iter()
        .map(|(mhz, db)| format!("{{ frequency = \"{mhz} MHz\", loss = \"{db} dB\" }}"))
        .collect();
    let text = format!(
        "[cables.tabled]\ntitle = \"Tabled\"\nsource = \"TIA-568\"\ngauge = \"93.8 ohm/km\"\npairs = 4\n\
         line = {{ capacitance = \"52 pF/m\", losses = [{}]{rest} }}\n",
        rows.join(", ")
    );
    let mut sources = Sources::new();
    let file = sources.add("own.toml", text);
    let loaded = LoadedCatalogues::new(&sources, &[file]);
    (sources, loaded)
}

#[test]
fn constants_fitted_to_a_table_give_the_table_back() {
    let (_, loaded) = catalogue(&CATEGORY_5E, "");
    assert_eq!(loaded.findings(), []);
    let pair = pair_constants(&loaded.catalogue().cables["tabled"]).expect("a pair has such losses");
    let line = Line::new(LineLaw::Plain(PlainLine {
        r_ohm_per_m: 0.1876,
        l_h_per_m: pair.l_h_per_m,
        c_f_per_m: pair.c_f_per_m,
        g_s_per_m: 0.0,
        skin_corner_hz: Some(pair.skin_corner_hz),
        loss_tangent: pair.loss_tangent,
    }))
    .expect("a line");
    for (mhz, loss_db) in CATEGORY_5E {
        let per_m = line.attenuation_db_per_m(mhz * 1e6);
        // The printed table is rounded to a tenth.
        assert!((per_m * 100.0 - loss_db).abs() < 0.1 + 0.02 * loss_db, "{mhz} MHz: {} dB", per_m * 100.0);
    }
}

#[test]
fn a_table_that_no_pair_has_gives_no_constants() {
    let (_, loaded) = catalogue(&[(1.0, 9.0), (4.0, 2.0), (10.0, 30.0), (16.0, 1.0)], "");
    assert_eq!(loaded.findings(), []);
    assert_eq!(pair_constants(&loaded.catalogue().cables["tabled"]), None);
}

#[test]
fn too_few_losses_and_two_ways_at_once_are_refused() {
    for (losses, rest) in [(&CATEGORY_5E[..2], ""), (&CATEGORY_5E[..], ", loss_tangent = 0.01")] {
        let (_, loaded) = catalogue(losses, rest);
        let codes: Vec<&str> = loaded.findings().iter().map(|finding| finding.code.as_str()).collect();
        assert_eq!(codes, ["out-of-range"], "{rest}");
    }
    let text = "[cables.bare]\ntitle = \"B\"\nsource = \"s\"\ngauge = \"0.5 mm\"\nline = { capacitance = \"52 pF/m\" }\n";
    let mut sources = Sources::new();
    let file = sources.add("own.toml", text);
    let findings = LoadedCatalogues::new(&sources, &[file]).findings();
    let codes: Vec<&str> = findings.iter().map(|finding| finding.code.as_str()).collect();
    assert_eq!(codes, ["missing-key"; 3]);
}

/// The built-in category cable against the standard's maxima at 20 °C: within 2 % of each, as the best of such cable; more would refuse what
/// holds, less flatter.
#[test]
fn the_built_in_category_cable_is_held_to_the_maxima() {
    let mut sources = Sources::new();
    let (name, text) = latchline_site::builtin_catalogue();
    let file = sources.add(name, text);
    let loaded = LoadedCatalogues::new(&sources, &[file]);
    let cable = &loaded.catalogue().cables["cat-5e"];
    let pair = pair_constants(cable).expect("it has line constants");
    let line = Line::new(LineLaw::Plain(PlainLine {
        r_ohm_per_m: 2.0 * conductor_ohm_per_m(cable, 20.0),
        l_h_per_m: pair.l_h_per_m,
        c_f_per_m: pair.c_f_per_m,
        g_s_per_m: 0.0,
        skin_corner_hz: Some(pair.skin_corner_hz),
        loss_tangent: pair.loss_tangent,
    }))
    .expect("a line");
    for (mhz, most_db) in CATEGORY_5E {
        let loss_db = line.attenuation_db_per_m(mhz * 1e6) * 100.0;
        // The printed maxima are rounded to a tenth.
        assert!(
            (loss_db - most_db).abs() <= 0.05 + 0.02 * most_db,
            "{mhz} MHz: {loss_db} dB, at most {most_db}"
        );
    }
}
