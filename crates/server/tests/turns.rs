//! Undo and redo say what they take back and make again.

use crate::common::{SITE, Served, TOKEN, status};

fn cable(run: &str, cable: &str) -> String {
    format!("{{\"kind\":\"cable\",\"run\":\"{run}\",\"cable\":\"{cable}\"}}")
}

/// One client changes a run, another one another run; the first takes its own back, and makes it again.
#[test]
fn the_history_names_the_change_that_was_turned_back() {
    let served = Served::with(SITE);
    let token = format!("x-latchline-token: {TOKEN}\r\n");
    let by_other = |path: &str, body: String| {
        let answer = served.post(path, &token, &body);
        assert_eq!(status(&answer), 200, "{answer}");
    };
    assert_eq!(status(&served.edit("one", 1, &cable("flats-1", "flex-1.5"))), 200);
    let change = cable("door", "flex-1.0");
    by_other(
        "/sites/house/edit",
        format!("{{\"id\":\"two\",\"client\":\"other\",\"base\":2,\"change\":{change}}}"),
    );
    assert_eq!(status(&served.undo("three")), 200);
    let history = served.get("/sites/house/history");
    assert!(history.contains("taken back: flats-1"), "{history}");
    assert!(!history.contains("taken back: door"), "{history}");
    by_other("/sites/house/redo", String::from("{\"id\":\"four\",\"client\":\"t\"}"));
    assert_eq!(status(&served.undo("five")), 200);
    let history = served.get("/sites/house/history");
    assert!(history.contains("made again: flats-1"), "{history}");
    assert_eq!(history.matches("taken back: flats-1").count(), 2, "{history}");
    assert!(
        !history.contains("taken back: made again") && !history.contains("made again: taken back"),
        "{history}"
    );
}
