//! Places for words that would stand over each other.

/// Places in the order of the wanted ones, at least `gap` apart, moved as little as that allows
/// (least squares: neighbours that are too close share their mean).
pub fn spread(wanted: &[f64], gap: f64) -> Vec<f64> {
    // Without the gaps the places only have to ascend: pool neighbours that do not.
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (n, place) in wanted.iter().enumerate() {
        pools.push((place - n as f64 * gap, 1));
        while let [.., (low, count), (high, more)] = pools[..] {
            if low <= high {
                break;
            }
            let (all, sum) = (count + more, low * count as f64 + high * more as f64);
            pools.truncate(pools.len() - 2);
            pools.push((sum / all as f64, all));
        }
    }
    let flat = pools.into_iter().flat_map(|(place, count)| std::iter::repeat_n(place, count));
    flat.enumerate().map(|(n, place)| place + n as f64 * gap).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_with_room_stay_where_they_are() {
        assert_eq!(spread(&[1.0, 5.0, 9.0], 2.0), [1.0, 5.0, 9.0]);
        assert!(spread(&[], 2.0).is_empty());
    }

    #[test]
    fn crowded_letters_move_apart_about_their_middle() {
        assert_eq!(spread(&[4.0, 4.0, 4.0], 2.0), [2.0, 4.0, 6.0]);
        let places = spread(&[0.0, 1.0, 10.0], 3.0);
        assert_eq!(places, [-1.0, 2.0, 10.0]);
    }

    #[test]
    fn a_pool_that_grows_takes_in_its_neighbours() {
        let places = spread(&[0.0, 2.0, 2.0, 2.0], 2.0);
        assert!(places.windows(2).all(|w| w[1] - w[0] >= 2.0 - 1e-12), "{places:?}");
        let mean = places.iter().sum::<f64>() / 4.0;
        assert!((mean - 1.5).abs() < 1e-12);
    }
}
