//! The list of devices that the system found, held against the plan, as `latchline addresses --found` does.

use super::house::{LANGUAGES, house};
use latchline_report::Look;
use latchline_report::addresses::found as told;
use latchline_report::json::text;
use latchline_site::addresses::{FoundList, assign, read_found_list, reconcile};

/// As the text of a list.
pub fn found(bytes: &[u8]) {
    let Ok(list) = std::str::from_utf8(bytes) else { return };
    let site = house().site().expect("the house can be used");
    let plan = assign(site);
    let FoundList { devices, unread } = read_found_list(list);
    let found = reconcile(site, &plan, &devices);
    for language in LANGUAGES {
        told::text(site, &plan, &found, &unread, &Look::default().in_language(language));
    }
    text(&told::document(site, &plan, &found, &unread)).expect("every list has a form in JSON");
}
