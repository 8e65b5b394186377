//! The rules of locks, escape, heights and batteries: for each a failing, a passing and a boundary case.
//!
//! Every case is one entrance "front" on a 24 V supply, with all tolerances of site and cable at 0 so
//! that figures can be worked out by hand: the lock's cable has 0.1 ohm of loop per metre, and no joints
//! where a case says so. Expected figures are by hand, beside each case; values of standards are named
//! where they are used.

mod case;
mod fittings;
mod locks;
mod supply;
mod ways_out;

/// Every code of these files has a page with the headings of the others.
#[test]
fn every_rule_has_a_page() {
    let texts = [
        include_str!("locks.rs"),
        include_str!("ways_out.rs"),
        include_str!("fittings.rs"),
        include_str!("supply.rs"),
    ];
    for code in texts.concat().split("let code = \"").skip(1).filter_map(|rest| rest.split('"').next()) {
        let words = latchline_words::codes::of(code);
        let page =
            words.unwrap_or_else(|| panic!("no rule {code}")).page(latchline_finding::Language::English);
        for heading in ["# What it checks", "# Why it matters", "# Example", "# What to do"] {
            assert!(page.contains(heading), "{code} lacks {heading}");
        }
    }
}
