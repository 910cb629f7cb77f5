//! Regions of the machine own their fields: no other file can write them.

use crate::source;

/// The body of a struct of that name, in whichever file of the machine it stands.
fn body(name: &str) -> Option<String> {
    source::files("lock-core/src/machine", ".rs").into_iter().find_map(|path| {
        let text = source::text(&path);
        let start = text
            .find(&format!("struct {name} {{"))
            .or_else(|| text.find(&format!("struct {name}(")))?;
        let rest = &text[start..];
        let end = rest.find([';', '}'])?;
        Some(rest[..end].to_owned())
    })
}

#[test]
fn regions_own_their_fields() {
    let machine = body("Machine").unwrap();
    let regions: Vec<_> = machine
        .lines()
        .filter_map(|line| line.trim().strip_prefix("pub(super) "))
        .filter_map(|field| field.trim_end_matches(',').split_once(": "))
        .map(|(_, region)| region.to_owned())
        // What salts and keys are drawn from stands lower.
        .filter(|region| region != "Seed")
        .collect();
    assert!(regions.len() > 10, "only {regions:?} were found");
    for region in regions {
        let body = body(&region).unwrap_or_else(|| panic!("{region} is no struct of the machine"));
        let open = body.lines().skip(1).find(|line| line.trim_start().starts_with("pub"));
        assert_eq!(open, None, "a field of {region} is open to others: give it a method");
        assert!(!body.contains("(pub"), "what {region} holds is open to others");
    }
}

/// A timer that fires and wakes nobody, or wakes and never fires, would let the lock hang.
#[test]
fn timers_stand_in_one_table() {
    let text = source::text("lock-core/src/machine/timers.rs");
    let all = text.split("const ALL:").nth(1).and_then(|rest| rest.split(';').nth(1)).unwrap();
    let variants = text.split("enum Timer {").nth(1).and_then(|rest| rest.split('}').next());
    let variants: Vec<_> = variants
        .unwrap()
        .lines()
        .map(|line| line.trim().trim_end_matches(','))
        .filter(|line| !line.is_empty() && !line.starts_with("//"))
        .collect();
    assert!(variants.len() > 10, "only {variants:?} were found");
    for timer in variants {
        let listed = all.contains(&format!("Self::{timer},"));
        assert!(listed, "{timer} is not in Timer::ALL: it would neither wake nor fire");
    }
}
