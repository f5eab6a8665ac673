/* tables.c - every table: its statements, and its columns in the struct.
 *
 * Columns stand in the same order in insert, select and the list beside them. */
#include "book/book_priv.h"

#define AT(type, row, member)                         \
	{                                             \
		type, offsetof(struct row, member), 0 \
	}

static const struct book_column book_info_columns[] = {
	AT(BOOK_TEXT, book_info, name),
	AT(BOOK_TEXT, book_info, note),
	AT(BOOK_TEXT, book_info, gallon),
	AT(BOOK_TEXT, book_info, currency),
};

static const struct book_column material_columns[] = {
	AT(BOOK_TEXT, book_material, code),
	AT(BOOK_TEXT, book_material, name),
	AT(BOOK_TEXT, book_material, role),
	AT(BOOK_MAYBE, book_material, particle_density_kg_m3),
	AT(BOOK_MAYBE, book_material, bulk_density_kg_m3),
	AT(BOOK_MAYBE, book_material, moisture_ratio),
	AT(BOOK_MAYBE, book_material, absorption_ratio),
	AT(BOOK_MAYBE, book_material, hardness_kg_m3),
	AT(BOOK_MAYBE, book_material, package_kg),
	{BOOK_CENTS, offsetof(struct book_material, price_cents),
		offsetof(struct book_material, has_price)},
	AT(BOOK_TEXT, book_material, note),
	AT(BOOK_MAYBE, book_material, carbon_ratio),
	AT(BOOK_MAYBE, book_material, dilution_ratio),
};

static const struct book_column material_lot_columns[] = {
	AT(BOOK_ID, book_material_lot, material_id),
	AT(BOOK_TEXT, book_material_lot, code),
	AT(BOOK_TEXT, book_material_lot, bought_on),
	AT(BOOK_TEXT, book_material_lot, note),
};

static const struct book_column mix_columns[] = {
	AT(BOOK_TEXT, book_mix, code),
	AT(BOOK_TEXT, book_mix, name),
	AT(BOOK_TEXT, book_mix, why),
	AT(BOOK_TEXT, book_mix, matrix_code),
	AT(BOOK_TEXT, book_mix, reinforcement),
	AT(BOOK_MAYBE, book_mix, wet_target_kg_m3),
	AT(BOOK_MAYBE, book_mix, foam_m3_per_m3),
	AT(BOOK_MAYBE, book_mix, foam_target_kg_m3),
	AT(BOOK_MAYBE, book_mix, blending_target_s),
};

static const struct book_column mix_part_columns[] = {
	AT(BOOK_ID, book_mix_part, mix_id),
	AT(BOOK_ID, book_mix_part, material_id),
	AT(BOOK_REAL, book_mix_part, mass_kg_per_m3),
};

static const struct book_column trial_columns[] = {
	AT(BOOK_TEXT, book_trial, code),
	AT(BOOK_TEXT, book_trial, question),
	AT(BOOK_ID, book_trial, baseline_mix_id),
	AT(BOOK_MAYBE_WHOLE, book_trial, plan_seed),
	AT(BOOK_MAYBE_WHOLE, book_trial, pieces),
};

static const struct book_column trial_rule_columns[] = {
	AT(BOOK_ID, book_rule, trial_id),
	AT(BOOK_TEXT, book_rule, code),
	AT(BOOK_TEXT, book_rule, measure),
	AT(BOOK_REAL, book_rule, above),
	AT(BOOK_TEXT, book_rule, action),
	AT(BOOK_TEXT, book_rule, set_on),
	AT(BOOK_TEXT, book_rule, reason),
};

static const struct book_column batch_columns[] = {
	AT(BOOK_TEXT, book_batch, code),
	AT(BOOK_ID, book_batch, trial_id),
	AT(BOOK_ID, book_batch, mix_id),
	AT(BOOK_FLAG, book_batch, practice),
	AT(BOOK_AFTER, book_batch, practice_set_after),
	AT(BOOK_TEXT, book_batch, made_on),
	AT(BOOK_MAYBE_WHOLE, book_batch, day),
	AT(BOOK_MAYBE, book_batch, water_hardness_kg_m3),
	AT(BOOK_MAYBE, book_batch, air_degc),
	AT(BOOK_MAYBE, book_batch, slurry_degc),
	AT(BOOK_MAYBE, book_batch, blending_s),
	AT(BOOK_MAYBE, book_batch, slurry_kg_m3),
	AT(BOOK_MAYBE, book_batch, foam_start_kg_m3),
	AT(BOOK_MAYBE, book_batch, foam_middle_kg_m3),
	AT(BOOK_MAYBE, book_batch, foam_end_kg_m3),
	AT(BOOK_MAYBE, book_batch, wet_kg_m3),
	AT(BOOK_MAYBE, book_batch, volume_m3),
	AT(BOOK_MAYBE, book_batch, spread_m),
	AT(BOOK_MAYBE_WHOLE, book_batch, consistency),
	AT(BOOK_TEXT, book_batch, remark),
	AT(BOOK_ID_MAYBE, book_batch, generator_id),
	AT(BOOK_MAYBE, book_batch, foam_m3),
	AT(BOOK_MAYBE, book_batch, foam_s),
	AT(BOOK_MAYBE, book_batch, set_s),
};

static const struct book_column settling_columns[] = {
	AT(BOOK_ID, book_settling, batch_id),
	AT(BOOK_REAL, book_settling, after_s),
	AT(BOOK_REAL, book_settling, loss_ratio),
};

static const struct book_column specimen_columns[] = {
	AT(BOOK_TEXT, book_specimen, code),
	AT(BOOK_ID, book_specimen, batch_id),
	AT(BOOK_TEXT, book_specimen, form),
	AT(BOOK_MAYBE, book_specimen, width_m),
	AT(BOOK_MAYBE, book_specimen, depth_m),
	AT(BOOK_MAYBE, book_specimen, length_m),
	AT(BOOK_MAYBE, book_specimen, diameter_m),
	AT(BOOK_MAYBE, book_specimen, mass_kg),
	AT(BOOK_MAYBE, book_specimen, moisture_ratio),
	AT(BOOK_TEXT, book_specimen, fate),
	AT(BOOK_MAYBE, book_specimen, fate_age_s),
	AT(BOOK_FLAG, book_specimen, reinforced),
	AT(BOOK_TEXT, book_specimen, remark),
	AT(BOOK_ID_MAYBE, book_specimen, form_id),
	AT(BOOK_MAYBE, book_specimen, test_age_s),
	AT(BOOK_MAYBE, book_specimen, height_m[0]),
	AT(BOOK_MAYBE, book_specimen, height_m[1]),
	AT(BOOK_MAYBE, book_specimen, height_m[2]),
	AT(BOOK_MAYBE, book_specimen, height_m[3]),
	AT(BOOK_TEXT_MAYBE, book_specimen, damage),
};

static const struct book_column reading_columns[] = {
	AT(BOOK_ID, book_reading, specimen_id),
	AT(BOOK_TEXT, book_reading, code),
	AT(BOOK_TEXT, book_reading, kind),
	AT(BOOK_MAYBE, book_reading, age_s),
	AT(BOOK_TEXT, book_reading, remark),
	AT(BOOK_ID_MAYBE, book_reading, rig_id),
};

static const struct book_column reading_bending_columns[] = {
	AT(BOOK_TEXT_MAYBE, book_bending, loading),
	AT(BOOK_MAYBE, book_bending, span_m),
	AT(BOOK_MAYBE, book_bending, strap_m),
	AT(BOOK_MAYBE, book_bending, on_rig_kg),
	AT(BOOK_FLAG, book_bending, on_rig_included),
	AT(BOOK_REAL, book_bending, held_kg),
	AT(BOOK_MAYBE, book_bending, broke_kg),
	AT(BOOK_MAYBE, book_bending, hold_s),
	AT(BOOK_MAYBE, book_bending, after_held_kg),
	AT(BOOK_MAYBE, book_bending, after_broke_kg),
	AT(BOOK_MAYBE, book_bending, sag_m),
};

static const struct book_column reading_drop_columns[] = {
	AT(BOOK_TEXT, book_drop, place),
	AT(BOOK_MAYBE, book_drop, bar_kg),
	AT(BOOK_MAYBE, book_drop, height_m),
	AT(BOOK_TEXT_MAYBE, book_drop, tip),
	AT(BOOK_MAYBE, book_drop, tip_diameter_m),
	AT(BOOK_MAYBE, book_drop, tip_angle_rad),
	AT(BOOK_MAYBE, book_drop, tube_loss_ratio),
	AT(BOOK_MAYBE, book_drop, dent_m),
	AT(BOOK_FLAG, book_drop, went_through),
	AT(BOOK_FLAG, book_drop, cracked),
	AT(BOOK_MAYBE_WHOLE, book_drop, blows),
	AT(BOOK_MAYBE, book_drop, from_edge_m),
	AT(BOOK_MAYBE, book_drop, dent_step_m),
};

static const struct book_column reading_crushing_columns[] = {
	AT(BOOK_MAYBE, book_crushing, gauge_pa),
	AT(BOOK_MAYBE, book_crushing, gauge_zero_pa),
	AT(BOOK_MAYBE, book_crushing, gauge_step_pa),
	AT(BOOK_MAYBE, book_crushing, ram_diameter_m),
	AT(BOOK_MAYBE, book_crushing, load_n),
	AT(BOOK_MAYBE, book_crushing, held_n),
	AT(BOOK_MAYBE, book_crushing, broke_n),
	AT(BOOK_MAYBE, book_crushing, plate_m),
};

static const struct book_column reading_weighing_columns[] = {
	AT(BOOK_TEXT, book_weighing, state),
	AT(BOOK_REAL, book_weighing, mass_kg),
};

static const struct book_column reading_other_columns[] = {
	AT(BOOK_TEXT, book_other, quantity),
	AT(BOOK_REAL, book_other, value),
};

static const struct book_column reading_water_columns[] = {
	AT(BOOK_MAYBE, book_water, after_s),
	AT(BOOK_MAYBE, book_water, mass_kg),
	AT(BOOK_MAYBE, book_water, dry_kg),
	AT(BOOK_MAYBE, book_water, mass_step_kg),
	AT(BOOK_MAYBE, book_water, height_m),
	AT(BOOK_MAYBE, book_water, height_step_m),
	AT(BOOK_MAYBE, book_water, face_m2),
	AT(BOOK_MAYBE, book_water, wanted_ratio),
};

static const struct book_column reading_length_columns[] = {
	AT(BOOK_REAL, book_length, length_m),
	AT(BOOK_MAYBE, book_length, step_m),
	AT(BOOK_MAYBE, book_length, degc),
};

static const struct book_column reading_screw_columns[] = {
	AT(BOOK_REAL, book_screw, held_n),
	AT(BOOK_MAYBE, book_screw, broke_n),
	AT(BOOK_MAYBE, book_screw, step_n),
	AT(BOOK_MAYBE, book_screw, diameter_m),
	AT(BOOK_MAYBE, book_screw, depth_m),
};

static const struct book_column reading_frost_columns[] = {
	AT(BOOK_MAYBE_WHOLE, book_frost, cycles),
	AT(BOOK_REAL, book_frost, before_kg),
	AT(BOOK_REAL, book_frost, after_kg),
	AT(BOOK_MAYBE, book_frost, mass_step_kg),
	AT(BOOK_MAYBE, book_frost, before_m),
	AT(BOOK_MAYBE, book_frost, after_m),
	AT(BOOK_MAYBE, book_frost, length_step_m),
};

static const struct book_column reading_hot_box_columns[] = {
	AT(BOOK_REAL, book_hot_box, power_w),
	AT(BOOK_MAYBE, book_hot_box, leak_w),
	AT(BOOK_MAYBE, book_hot_box, area_m2),
	AT(BOOK_MAYBE, book_hot_box, thickness_m),
	AT(BOOK_REAL, book_hot_box, warm_degc),
	AT(BOOK_REAL, book_hot_box, cold_degc),
	AT(BOOK_MAYBE, book_hot_box, power_step_w),
	AT(BOOK_MAYBE, book_hot_box, temperature_step_k),
};

static const struct book_column part_columns[] = {
	AT(BOOK_TEXT, book_part, code),
	AT(BOOK_TEXT, book_part, name),
	AT(BOOK_TEXT, book_part, kind),
	AT(BOOK_MAYBE, book_part, length_m),
	AT(BOOK_MAYBE, book_part, height_m),
	AT(BOOK_MAYBE, book_part, thickness_m),
	AT(BOOK_MAYBE, book_part, openings_m2),
	AT(BOOK_MAYBE, book_part, volume_m3),
	AT(BOOK_MAYBE, book_part, waste_ratio),
	AT(BOOK_MAYBE, book_part, batch_m3),
	AT(BOOK_TEXT, book_part, note),
};

static const struct book_column requirement_columns[] = {
	AT(BOOK_ID, book_requirement, part_id),
	AT(BOOK_TEXT, book_requirement, measure),
	AT(BOOK_TEXT, book_requirement, bound),
	AT(BOOK_REAL, book_requirement, value),
	AT(BOOK_TEXT, book_requirement, source),
};

static const struct book_column decision_columns[] = {
	AT(BOOK_ID, book_decision, part_id),
	AT(BOOK_ID, book_decision, mix_id),
	AT(BOOK_TEXT, book_decision, reason),
	AT(BOOK_TEXT, book_decision, figures),
};

static const struct book_column quantity_columns[] = {
	AT(BOOK_ID, book_quantity, decision_id),
	AT(BOOK_TEXT, book_quantity, what),
	AT(BOOK_REAL, book_quantity, value),
	AT(BOOK_TEXT, book_quantity, unit),
};

static const struct book_column material_basis_columns[] = {
	AT(BOOK_ID, book_material_basis, material_id),
	AT(BOOK_TEXT, book_material_basis, figure),
	AT(BOOK_TEXT, book_material_basis, basis),
	AT(BOOK_TEXT, book_material_basis, source),
};

static const struct book_column gear_columns[] = {
	AT(BOOK_TEXT, book_gear, code),
	AT(BOOK_MAYBE, book_gear, mixer_m3),
	AT(BOOK_MAYBE, book_gear, scale_step_kg),
	AT(BOOK_MAYBE, book_gear, spare_ratio),
};

static const struct book_column generator_columns[] = {
	AT(BOOK_TEXT, book_generator, code),
	AT(BOOK_TEXT, book_generator, metering),
	AT(BOOK_REAL, book_generator, target_kg_m3),
	AT(BOOK_REAL, book_generator, vessel_m3),
	AT(BOOK_MAYBE, book_generator, vessel_u_m3),
	AT(BOOK_REAL, book_generator, vessel_kg),
	AT(BOOK_REAL, book_generator, scale_step_kg),
	AT(BOOK_MAYBE, book_generator, dilution_ratio),
	AT(BOOK_MAYBE, book_generator, rate_m3_s),
	AT(BOOK_TEXT, book_generator, note),
};

static const struct book_column foam_check_columns[] = {
	AT(BOOK_ID, book_foam_check, generator_id),
	AT(BOOK_ID_MAYBE, book_foam_check, batch_id),
	AT(BOOK_TEXT, book_foam_check, code),
	AT(BOOK_TEXT, book_foam_check, read_on),
	AT(BOOK_TEXT, book_foam_check, moment),
	AT(BOOK_REAL, book_foam_check, gross_kg),
	AT(BOOK_MAYBE, book_foam_check, fill_s),
	AT(BOOK_TEXT, book_foam_check, remark),
	AT(BOOK_MAYBE_WHOLE, book_foam_check, read_at_s),
	AT(BOOK_MAYBE_WHOLE, book_foam_check, batches_before),
};

static const struct book_column warning_columns[] = {
	AT(BOOK_TEXT, book_warning, code),
	AT(BOOK_FLAG, book_warning, is_on),
	AT(BOOK_MAYBE, book_warning, limit[0]),
	AT(BOOK_MAYBE, book_warning, limit[1]),
	AT(BOOK_MAYBE, book_warning, limit[2]),
	AT(BOOK_TEXT, book_warning, reason),
};

static const struct book_column foam_standing_columns[] = {
	AT(BOOK_ID, book_foam_standing, generator_id),
	AT(BOOK_TEXT, book_foam_standing, code),
	AT(BOOK_REAL, book_foam_standing, foam_kg),
	AT(BOOK_REAL, book_foam_standing, after_s),
	AT(BOOK_REAL, book_foam_standing, drained_kg),
	AT(BOOK_TEXT, book_foam_standing, read_on),
	AT(BOOK_TEXT, book_foam_standing, remark),
};

static const struct book_column rig_columns[] = {
	AT(BOOK_TEXT, book_rig, code),
	AT(BOOK_TEXT, book_rig, test),
	AT(BOOK_TEXT_MAYBE, book_rig, loading),
	AT(BOOK_MAYBE, book_rig, span_m),
	AT(BOOK_MAYBE, book_rig, strap_m),
	AT(BOOK_MAYBE, book_rig, hanger_kg),
	AT(BOOK_MAYBE, book_rig, bar_kg),
	AT(BOOK_MAYBE, book_rig, height_m),
	AT(BOOK_TEXT_MAYBE, book_rig, tip),
	AT(BOOK_MAYBE, book_rig, tip_diameter_m),
	AT(BOOK_MAYBE, book_rig, tip_angle_rad),
	AT(BOOK_MAYBE, book_rig, ram_m),
	AT(BOOK_MAYBE, book_rig, gauge_step_pa),
	AT(BOOK_MAYBE, book_rig, rule_step_m),
	AT(BOOK_MAYBE, book_rig, scale_step_kg),
	AT(BOOK_TEXT, book_rig, note),
};

static const struct book_column rig_check_columns[] = {
	AT(BOOK_ID, book_rig_check, rig_id),
	AT(BOOK_TEXT, book_rig_check, code),
	AT(BOOK_TEXT, book_rig_check, what),
	AT(BOOK_TEXT, book_rig_check, read_on),
	AT(BOOK_MAYBE, book_rig_check, known_kg),
	AT(BOOK_MAYBE, book_rig_check, found_kg),
	AT(BOOK_MAYBE, book_rig_check, gauge_pa),
	AT(BOOK_MAYBE, book_rig_check, zero_pa),
	AT(BOOK_MAYBE, book_rig_check, height_m),
	AT(BOOK_MAYBE, book_rig_check, speed_m_s),
	AT(BOOK_MAYBE, book_rig_check, dent_m),
	AT(BOOK_TEXT, book_rig_check, piece),
	AT(BOOK_TEXT, book_rig_check, remark),
};

static const struct book_column file_columns[] = {
	AT(BOOK_TEXT, book_file, code),
	AT(BOOK_TEXT, book_file, name),
	AT(BOOK_TEXT, book_file, media),
	AT(BOOK_ID, book_file, bytes),
};

static const struct book_column trace_columns[] = {
	AT(BOOK_TEXT, book_trace, code),
	AT(BOOK_ID, book_trace, file_id),
	AT(BOOK_ID_MAYBE, book_trace, specimen_id),
	AT(BOOK_TEXT, book_trace, kind),
	AT(BOOK_TEXT, book_trace, how),
	AT(BOOK_ID, book_trace, rows),
	AT(BOOK_ID, book_trace, skipped),
	AT(BOOK_FLAG, book_trace, dated),
	AT(BOOK_REAL, book_trace, first_s),
	AT(BOOK_REAL, book_trace, last_s),
	AT(BOOK_REAL, book_trace, gap_s),
	AT(BOOK_REAL, book_trace, gap_at_s),
	AT(BOOK_REAL, book_trace, division),
	AT(BOOK_REAL, book_trace, highest),
	AT(BOOK_REAL, book_trace, lowest),
	AT(BOOK_MAYBE, book_trace, zero),
	AT(BOOK_MAYBE, book_trace, crack_n),
	AT(BOOK_MAYBE, book_trace, after_n),
	AT(BOOK_MAYBE, book_trace, end_n),
	AT(BOOK_MAYBE, book_trace, stiffness_n_m),
	AT(BOOK_MAYBE, book_trace, energy_j),
	AT(BOOK_MAYBE, book_trace, crack_energy_j),
	AT(BOOK_MAYBE, book_trace, blow_s),
	AT(BOOK_MAYBE, book_trace, speed_lost_m_s),
	AT(BOOK_MAYBE, book_trace, depth_m),
};

static const struct book_column trace_point_columns[] = {
	AT(BOOK_ID, book_trace_point, trace_id),
	AT(BOOK_ID, book_trace_point, place),
	AT(BOOK_REAL, book_trace_point, from_s),
	AT(BOOK_REAL, book_trace_point, to_s),
	AT(BOOK_REAL, book_trace_point, mean),
	AT(BOOK_REAL, book_trace_point, low),
	AT(BOOK_REAL, book_trace_point, high),
	AT(BOOK_MAYBE, book_trace_point, sag_m),
};

static const struct book_column cure_columns[] = {
	AT(BOOK_ID, book_cure, batch_id),
	AT(BOOK_TEXT, book_cure, code),
	AT(BOOK_ID, book_cure, from_s),
	AT(BOOK_ID, book_cure, to_s),
	AT(BOOK_MAYBE, book_cure, degc),
	AT(BOOK_ID_MAYBE, book_cure, trace_id),
	AT(BOOK_TEXT, book_cure, keeping),
	AT(BOOK_TEXT, book_cure, remark),
};

static const struct book_column photo_columns[] = {
	AT(BOOK_TEXT, book_photo, code),
	AT(BOOK_ID, book_photo, batch_id),
	AT(BOOK_ID, book_photo, file_id),
	AT(BOOK_ID, book_photo, added_s),
	AT(BOOK_ID, book_photo, width),
	AT(BOOK_ID, book_photo, height),
	AT(BOOK_TEXT, book_photo, remark),
};

static const struct book_column batch_part_columns[] = {
	AT(BOOK_ID, book_batch_part, batch_id),
	AT(BOOK_ID, book_batch_part, material_id),
	AT(BOOK_REAL, book_batch_part, mass_kg),
	AT(BOOK_TEXT, book_batch_part, lot),
};

static const struct book_column trial_slot_columns[] = {
	AT(BOOK_ID, book_trial_slot, trial_id),
	AT(BOOK_TEXT, book_trial_slot, batch_code),
	AT(BOOK_ID, book_trial_slot, place),
	AT(BOOK_ID, book_trial_slot, day),
	AT(BOOK_ID, book_trial_slot, mix_id),
};

static const struct book_column form_columns[] = {
	AT(BOOK_TEXT, book_form, code),
	AT(BOOK_TEXT, book_form, shape),
	AT(BOOK_MAYBE, book_form, width_m),
	AT(BOOK_REAL, book_form, depth_m),
	AT(BOOK_MAYBE, book_form, length_m),
	AT(BOOK_MAYBE, book_form, diameter_m),
	AT(BOOK_TEXT, book_form, note),
};

static const struct book_column bending_session_columns[] = {
	AT(BOOK_ID, book_bending_session, specimen_id),
	AT(BOOK_TEXT, book_bending_session, code),
	AT(BOOK_TEXT, book_bending_session, loading),
	AT(BOOK_REAL, book_bending_session, span_m),
	AT(BOOK_MAYBE, book_bending_session, strap_m),
	AT(BOOK_REAL, book_bending_session, hanger_kg),
	AT(BOOK_TEXT, book_bending_session, weights),
	AT(BOOK_ID_MAYBE, book_bending_session, rig_id),
};

static const struct book_column bending_step_columns[] = {
	AT(BOOK_ID, book_bending_step, specimen_id),
	AT(BOOK_TEXT, book_bending_step, code),
	AT(BOOK_ID, book_bending_step, place),
	AT(BOOK_TEXT, book_bending_step, what),
	AT(BOOK_MAYBE, book_bending_step, mass_kg),
	AT(BOOK_MAYBE, book_bending_step, sag_m),
	AT(BOOK_TEXT, book_bending_step, at),
};

static const struct book_column placing_columns[] = {
	AT(BOOK_ID, book_placing, batch_id),
	AT(BOOK_ID, book_placing, part_id),
	AT(BOOK_ID, book_placing, lift),
	AT(BOOK_MAYBE, book_placing, from_m),
	AT(BOOK_MAYBE, book_placing, to_m),
	AT(BOOK_TEXT, book_placing, verdict),
	AT(BOOK_TEXT, book_placing, reason),
};

static const struct book_column part_use_columns[] = {
	AT(BOOK_ID, book_part_use, part_id),
	AT(BOOK_TEXT, book_part_use, form),
	AT(BOOK_MAYBE, book_part_use, span_m),
	AT(BOOK_MAYBE, book_part_use, load_n_m),
	AT(BOOK_MAYBE, book_part_use, area_load_pa),
	AT(BOOK_MAYBE, book_part_use, wind_pa),
	AT(BOOK_MAYBE, book_part_use, point_load_n),
	AT(BOOK_MAYBE, book_part_use, point_width_m),
	AT(BOOK_MAYBE, book_part_use, subgrade_pa),
	AT(BOOK_MAYBE, book_part_use, subgrade_sinks_m),
	AT(BOOK_MAYBE, book_part_use, modulus_pa),
	AT(BOOK_MAYBE, book_part_use, radius_m),
	AT(BOOK_MAYBE, book_part_use, steel_m2),
	AT(BOOK_MAYBE, book_part_use, effective_m),
	AT(BOOK_MAYBE, book_part_use, yield_pa),
	AT(BOOK_MAYBE, book_part_use, lift_m),
	AT(BOOK_TEXT, book_part_use, grip),
	AT(BOOK_MAYBE, book_part_use, moisture_ratio),
	AT(BOOK_MAYBE, book_part_use, safety),
	AT(BOOK_MAYBE, book_part_use, pitch_rad),
};

static const struct book_column usual_columns[] = {
	AT(BOOK_TEXT, book_usual, form),
	AT(BOOK_TEXT, book_usual, measure),
	AT(BOOK_TEXT, book_usual, bound),
	AT(BOOK_REAL, book_usual, value),
	AT(BOOK_FLAG, book_usual, is_asked),
	AT(BOOK_TEXT, book_usual, source),
};

static const struct book_column weight_columns[] = {
	AT(BOOK_ID_MAYBE, book_weight, part_id),
	AT(BOOK_TEXT, book_weight, criterion),
	AT(BOOK_REAL, book_weight, weight),
};

static const struct book_column part_layer_columns[] = {
	AT(BOOK_ID, book_part_layer, part_id),
	AT(BOOK_TEXT, book_part_layer, side),
	AT(BOOK_TEXT, book_part_layer, name),
	AT(BOOK_MAYBE, book_part_layer, thickness_m),
	AT(BOOK_MAYBE, book_part_layer, density_kg_m3),
	AT(BOOK_MAYBE, book_part_layer, strength_pa),
	AT(BOOK_MAYBE, book_part_layer, conductivity_w_mk),
	AT(BOOK_MAYBE, book_part_layer, resistance_m2k_w),
	AT(BOOK_MAYBE, book_part_layer, vapour_ratio),
};

static const struct book_column prediction_columns[] = {
	AT(BOOK_ID, book_prediction, part_id),
	AT(BOOK_ID, book_prediction, mix_id),
	AT(BOOK_TEXT, book_prediction, measure),
	AT(BOOK_ID, book_prediction, batches),
	AT(BOOK_ID, book_prediction, after_batch_id),
	AT(BOOK_REAL, book_prediction, low),
	AT(BOOK_REAL, book_prediction, median),
	AT(BOOK_REAL, book_prediction, high),
};

#undef AT

#define COLUMNS_OF(list, row)                                         \
	.column = (list), .n_column = sizeof(list) / sizeof(list)[0], \
	.size = sizeof(struct row)

/* What holds now, of a table called t in the statement. */
#define NOW(table)                                                       \
	"withdrawn = 0 AND revision = (SELECT max(revision) FROM " table \
	" AS n WHERE n.origin = t.origin)"

#define BATCH_COLUMNS                                       \
	"origin, revision, typed, code, trial_id, mix_id, " \
	"practice, practice_set, made_on, day, "            \
	"water_hardness_kg_m3, air_degc, slurry_degc, "     \
	"blending_s, slurry_kg_m3, foam_start_kg_m3, "      \
	"foam_middle_kg_m3, foam_end_kg_m3, wet_kg_m3, "    \
	"volume_m3, spread_m, consistency, remark, "        \
	"generator_id, foam_m3, foam_s, set_s"
#define SPECIMEN_COLUMNS                                        \
	"origin, revision, typed, code, batch_id, form, "       \
	"width_m, depth_m, length_m, diameter_m, mass_kg, "     \
	"moisture_ratio, fate, fate_age_s, reinforced, "        \
	"remark, form_id, test_age_s, height_1_m, height_2_m, " \
	"height_3_m, height_4_m, damage"
#define FOAM_CHECK_COLUMNS                                  \
	"origin, revision, typed, generator_id, batch_id, " \
	"code, read_on, moment, gross_kg, fill_s, remark, " \
	"read_at_s, batches_before"
#define SETTLING_COLUMNS                               \
	"origin, revision, typed, batch_id, after_s, " \
	"loss_ratio"

/* Another thing under the same key, one that holds first; ?1 is the thing's own
 * id. */
#define TAKEN(table, condition)                                              \
	"SELECT origin, withdrawn FROM " table " AS t WHERE " condition      \
	" AND origin <> ?1 AND revision = (SELECT max(revision) FROM " table \
	" AS n WHERE n.origin = t.origin) ORDER BY withdrawn, origin DESC"

const struct book_schema book_schemas[BOOK_N_TABLE] = {
	[BOOK_INFO] = {.insert = "INSERT INTO book_info (id, origin, revision, "
				 "history_id, typed, name, note, gallon, "
				 "currency) "
				 "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, name, note, "
			  "gallon, currency FROM book_info AS t WHERE "
			  "withdrawn = 0 AND origin > ? AND revision = "
			  "(SELECT max(revision) FROM book_info AS n WHERE "
			  "n.origin = t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM book_info",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "book_info WHERE origin = ?",
		.digest = "SELECT * FROM book_info WHERE id > ? ORDER BY id",
		COLUMNS_OF(book_info_columns, book_info)},
	[BOOK_MATERIAL] = {.what = N_("material"),
		.taken = TAKEN("material", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO material (id, origin, revision, "
			  "history_id, typed, code, name, role, "
			  "particle_density_kg_m3, bulk_density_kg_m3, "
			  "moisture_ratio, absorption_ratio, hardness_kg_m3, "
			  "package_kg, price_cents, note, carbon_ratio, "
			  "dilution_ratio) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, code, name, role, "
			  "particle_density_kg_m3, bulk_density_kg_m3, "
			  "moisture_ratio, absorption_ratio, hardness_kg_m3, "
			  "package_kg, price_cents, note, carbon_ratio, "
			  "dilution_ratio FROM material AS t WHERE withdrawn = "
			  "0 AND origin > ? AND revision = (SELECT "
			  "max(revision) FROM material AS n WHERE n.origin = "
			  "t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM material",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "material WHERE origin = ?",
		.digest = "SELECT * FROM material WHERE id > ? ORDER BY id",
		COLUMNS_OF(material_columns, book_material)},
	[BOOK_MATERIAL_LOT] = {.what = N_("lot"),
		.taken = TAKEN(
			"material_lot", "material_id = ?2 AND code = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert = "INSERT INTO material_lot (id, origin, revision, "
			  "history_id, typed, material_id, code, bought_on, "
			  "note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, material_id, "
			  "code, bought_on, note FROM material_lot AS t "
			  "WHERE withdrawn = 0 AND origin > ? AND revision "
			  "= (SELECT max(revision) FROM material_lot AS n "
			  "WHERE n.origin = t.origin) ORDER BY origin LIMIT "
			  "?",
		.next_id = "SELECT coalesce(max(id), 0) FROM material_lot",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "material_lot WHERE origin = ?",
		.digest = "SELECT * FROM material_lot WHERE id > ? ORDER BY "
			  "id",
		COLUMNS_OF(material_lot_columns, book_material_lot)},
	[BOOK_MIX] = {.what = N_("mix"),
		.taken = TAKEN("mix", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO mix (id, origin, revision, "
			  "history_id, typed, code, name, why, matrix_code, "
			  "reinforcement, wet_target_kg_m3, foam_m3_per_m3, "
			  "foam_target_kg_m3, blending_target_s) VALUES (?, "
			  "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, code, name, why, "
			  "matrix_code, reinforcement, wet_target_kg_m3, "
			  "foam_m3_per_m3, foam_target_kg_m3, "
			  "blending_target_s FROM mix AS t WHERE withdrawn "
			  "= 0 AND origin > ? AND revision = (SELECT "
			  "max(revision) FROM mix AS n WHERE n.origin = "
			  "t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM mix",
		.next_revision =
			"SELECT coalesce(max(revision), 0) + 1 FROM mix "
			"WHERE origin = ?",
		.digest = "SELECT * FROM mix WHERE id > ? ORDER BY id",
		COLUMNS_OF(mix_columns, book_mix)},
	[BOOK_MIX_PART] = {.what = N_("part of a mix"),
		.taken = TAKEN("mix_part", "mix_id = ?2 AND material_id = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert = "INSERT INTO mix_part (id, origin, revision, "
			  "history_id, typed, mix_id, material_id, "
			  "mass_kg_per_m3) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, mix_id, "
			  "material_id, mass_kg_per_m3 FROM mix_part AS t "
			  "WHERE withdrawn = 0 AND origin > ? AND revision "
			  "= (SELECT max(revision) FROM mix_part AS n WHERE "
			  "n.origin = t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM mix_part",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "mix_part WHERE origin = ?",
		.digest = "SELECT * FROM mix_part WHERE id > ? ORDER BY id",
		COLUMNS_OF(mix_part_columns, book_mix_part)},
	[BOOK_TRIAL] = {.what = N_("trial"),
		.taken = TAKEN("trial", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert =
			"INSERT INTO trial (id, origin, revision, history_id, "
			"typed, code, question, baseline_mix_id, plan_seed, "
			"pieces) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select =
			"SELECT origin, revision, typed, code, question, "
			"baseline_mix_id, plan_seed, pieces FROM trial AS t "
			"WHERE withdrawn = 0 AND origin > ? AND revision = "
			"(SELECT max(revision) FROM trial AS n WHERE n.origin "
			"= t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM trial",
		.next_revision =
			"SELECT coalesce(max(revision), 0) + 1 FROM trial "
			"WHERE origin = ?",
		.digest = "SELECT * FROM trial WHERE id > ? ORDER BY id",
		COLUMNS_OF(trial_columns, book_trial)},
	[BOOK_RULE] = {.what = N_("rule"),
		.taken = TAKEN("trial_rule", "trial_id = ?2 AND code = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert = "INSERT INTO trial_rule (id, origin, revision, "
			  "history_id, typed, trial_id, code, measure, "
			  "above, action, set_on, reason) VALUES (?, ?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, trial_id, code, "
			  "measure, above, action, set_on, reason FROM "
			  "trial_rule AS t WHERE withdrawn = 0 AND origin > "
			  "? AND revision = (SELECT max(revision) FROM "
			  "trial_rule AS n WHERE n.origin = t.origin) ORDER "
			  "BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM trial_rule",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "trial_rule WHERE origin = ?",
		.digest = "SELECT * FROM trial_rule WHERE id > ? ORDER BY "
			  "id",
		COLUMNS_OF(trial_rule_columns, book_rule)},
	[BOOK_BATCH] = {.what = N_("batch"),
		.taken = TAKEN("batch", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert =
			"INSERT INTO batch (id, origin, revision, history_id, "
			"typed, code, trial_id, mix_id, practice, "
			"practice_set, made_on, day, water_hardness_kg_m3, "
			"air_degc, slurry_degc, blending_s, slurry_kg_m3, "
			"foam_start_kg_m3, foam_middle_kg_m3, foam_end_kg_m3, "
			"wet_kg_m3, volume_m3, spread_m, consistency, remark, "
			"generator_id, foam_m3, foam_s, set_s) VALUES (?, ?, "
			"?, ?, "
			"?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
			"?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT " BATCH_COLUMNS " FROM batch AS t WHERE " NOW(
			"batch") " AND origin > ? ORDER BY origin LIMIT ?",
		.back = "SELECT " BATCH_COLUMNS " FROM batch AS t WHERE " NOW(
			"batch") " AND origin < ? ORDER BY origin DESC "
				 "LIMIT ?",
		.find = "SELECT origin FROM batch AS t WHERE " NOW(
			"batch") " AND code = ?",
		.at_hand = "SELECT " BATCH_COLUMNS
			   " FROM batch AS t WHERE (practice = 1 OR code = ?1) "
			   "AND " NOW("batch") " ORDER BY origin",
		.count = "SELECT count(*) FROM batch AS t WHERE " NOW(
			"batch") " AND origin < coalesce((SELECT max(origin) "
				 "FROM batch "
				 "WHERE code = ?1), 9223372036854775807)",
		.next_id = "SELECT coalesce(max(id), 0) FROM batch",
		.next_revision =
			"SELECT coalesce(max(revision), 0) + 1 FROM batch "
			"WHERE origin = ?",
		.digest = "SELECT * FROM batch WHERE id > ? ORDER BY id",
		COLUMNS_OF(batch_columns, book_batch)},
	[BOOK_SETTLING] = {.what = N_("settling reading"),
		.taken = TAKEN("settling", "batch_id = ?2 AND after_s = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert = "INSERT INTO settling (id, origin, revision, "
			  "history_id, typed, batch_id, after_s, "
			  "loss_ratio) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT " SETTLING_COLUMNS
			  " FROM settling AS t WHERE " NOW(
				  "settling") " AND origin > ? ORDER BY origin "
					      "LIMIT ?",
		.of_batch =
			"SELECT " SETTLING_COLUMNS
			" FROM settling AS t WHERE " NOW(
				"settling") " AND batch_id = ? ORDER BY origin",
		.next_id = "SELECT coalesce(max(id), 0) FROM settling",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "settling WHERE origin = ?",
		.digest = "SELECT * FROM settling WHERE id > ? ORDER BY id",
		COLUMNS_OF(settling_columns, book_settling)},
	[BOOK_SPECIMEN] = {.what = N_("test piece"),
		.taken = TAKEN("specimen", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert =
			"INSERT INTO specimen (id, origin, revision, "
			"history_id, typed, code, batch_id, form, "
			"width_m, depth_m, length_m, diameter_m, mass_kg, "
			"moisture_ratio, fate, fate_age_s, reinforced, "
			"remark, form_id, test_age_s, height_1_m, height_2_m, "
			"height_3_m, height_4_m, damage) VALUES (?, ?, ?, ?, "
			"?, "
			"?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
			"?, ?)",
		.select = "SELECT " SPECIMEN_COLUMNS
			  " FROM specimen AS t WHERE " NOW(
				  "specimen") " AND origin > ? ORDER BY origin "
					      "LIMIT ?",
		.back = "SELECT " SPECIMEN_COLUMNS
			" FROM specimen AS t WHERE " NOW(
				"specimen") " AND origin < ? ORDER BY origin "
					    "DESC "
					    "LIMIT ?",
		.find = "SELECT origin FROM specimen AS t WHERE " NOW(
			"specimen") " AND code = ?",
		.of_batch =
			"SELECT " SPECIMEN_COLUMNS
			" FROM specimen AS t WHERE " NOW(
				"specimen") " AND batch_id = ? ORDER BY origin",
		.next_id = "SELECT coalesce(max(id), 0) FROM specimen",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "specimen WHERE origin = ?",
		.digest = "SELECT * FROM specimen WHERE id > ? ORDER BY id",
		COLUMNS_OF(specimen_columns, book_specimen)},
	[BOOK_READING] = {.what = N_("reading"),
		.taken = TAKEN("reading",
			"specimen_id = ?2 AND kind = ?3 AND code = ?4"),
		.key = {0, 2, 1},
		.n_key = 3,
		.insert = "INSERT INTO reading (id, origin, revision, "
			  "history_id, typed, specimen_id, code, kind, "
			  "age_s, remark, rig_id) VALUES (?, ?, ?, ?, ?, ?, ?, "
			  "?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, specimen_id, "
			  "code, kind, age_s, remark, rig_id, id FROM reading "
			  "AS t "
			  "WHERE withdrawn = 0 AND origin > ? AND revision "
			  "= (SELECT max(revision) FROM reading AS n WHERE "
			  "n.origin = t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM reading",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "reading WHERE origin = ?",
		.digest = "SELECT * FROM reading WHERE id > ? ORDER BY id",
		COLUMNS_OF(reading_columns, book_reading)},
	[BOOK_READING_BENDING] =
		{.insert = "INSERT INTO reading_bending (reading_id, "
			   "history_id, loading, span_m, strap_m, on_rig_kg, "
			   "on_rig_included, held_kg, broke_kg, hold_s, "
			   "after_held_kg, after_broke_kg, sag_m) VALUES (?, "
			   "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
			.select = "SELECT loading, span_m, strap_m, on_rig_kg, "
				  "on_rig_included, held_kg, broke_kg, hold_s, "
				  "after_held_kg, after_broke_kg, sag_m FROM "
				  "reading_bending WHERE reading_id = ?",
			.next_id = "SELECT coalesce(max(reading_id), 0) FROM "
				   "reading_bending",
			.digest = "SELECT * FROM reading_bending WHERE "
				  "reading_id > "
				  "? ORDER BY reading_id",
			COLUMNS_OF(reading_bending_columns, book_bending)},
	[BOOK_READING_DROP] =
		{.insert = "INSERT INTO reading_drop (reading_id, "
			   "history_id, place, bar_kg, height_m, tip, "
			   "tip_diameter_m, tip_angle_rad, tube_loss_ratio, "
			   "dent_m, went_through, cracked, blows, "
			   "from_edge_m, dent_step_m) VALUES (?, ?, ?, "
			   "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
			.select = "SELECT place, bar_kg, height_m, tip, "
				  "tip_diameter_m, tip_angle_rad, "
				  "tube_loss_ratio, "
				  "dent_m, went_through, cracked, blows, "
				  "from_edge_m, dent_step_m FROM reading_drop "
				  "WHERE reading_id = ?",
			.next_id = "SELECT coalesce(max(reading_id), 0) FROM "
				   "reading_drop",
			.digest = "SELECT * FROM reading_drop WHERE reading_id "
				  "> ? "
				  "ORDER BY reading_id",
			COLUMNS_OF(reading_drop_columns, book_drop)},
	[BOOK_READING_CRUSHING] = {.insert = "INSERT INTO reading_crushing "
					     "(reading_id, "
					     "history_id, gauge_pa, "
					     "gauge_zero_pa, "
					     "gauge_step_pa, ram_diameter_m, "
					     "load_n, held_n, "
					     "broke_n, plate_m) VALUES (?, ?, "
					     "?, ?, ?, ?, ?, ?, ?, "
					     "?)",
		.select =
			"SELECT gauge_pa, gauge_zero_pa, gauge_step_pa, "
			"ram_diameter_m, load_n, held_n, broke_n, plate_m FROM "
			"reading_crushing WHERE reading_id = ?",
		.next_id = "SELECT coalesce(max(reading_id), 0) FROM "
			   "reading_crushing",
		.digest = "SELECT * FROM reading_crushing WHERE reading_id "
			  "> ? ORDER BY reading_id",
		COLUMNS_OF(reading_crushing_columns, book_crushing)},
	[BOOK_READING_WEIGHING] =
		{.insert = "INSERT INTO reading_weighing (reading_id, "
			   "history_id, state, mass_kg) VALUES (?, ?, ?, ?)",
			.select = "SELECT state, mass_kg FROM reading_weighing "
				  "WHERE reading_id = ?",
			.next_id = "SELECT coalesce(max(reading_id), 0) FROM "
				   "reading_weighing",
			.digest = "SELECT * FROM reading_weighing WHERE "
				  "reading_id "
				  "> ? ORDER BY reading_id",
			COLUMNS_OF(reading_weighing_columns, book_weighing)},
	[BOOK_READING_OTHER] = {.insert = "INSERT INTO reading_other "
					  "(reading_id, "
					  "history_id, quantity, value) VALUES "
					  "(?, ?, ?, ?)",
		.select = "SELECT quantity, value FROM reading_other WHERE "
			  "reading_id = ?",
		.next_id = "SELECT coalesce(max(reading_id), 0) FROM "
			   "reading_other",
		.digest = "SELECT * FROM reading_other WHERE reading_id > ? "
			  "ORDER BY reading_id",
		COLUMNS_OF(reading_other_columns, book_other)},
	[BOOK_READING_WATER] =
		{.insert = "INSERT INTO reading_water (reading_id, history_id, "
			   "after_s, mass_kg, dry_kg, mass_step_kg, height_m, "
			   "height_step_m, face_m2, wanted_ratio) VALUES (?, "
			   "?, ?, ?, ?, ?, ?, ?, ?, ?)",
			.select = "SELECT after_s, mass_kg, dry_kg, "
				  "mass_step_kg, height_m, height_step_m, "
				  "face_m2, wanted_ratio FROM reading_water "
				  "WHERE reading_id = ?",
			.next_id = "SELECT coalesce(max(reading_id), 0) FROM "
				   "reading_water",
			.digest = "SELECT * FROM reading_water WHERE "
				  "reading_id > ? ORDER BY reading_id",
			COLUMNS_OF(reading_water_columns, book_water)},
	[BOOK_READING_LENGTH] = {.insert =
					 "INSERT INTO reading_length "
					 "(reading_id, history_id, length_m, "
					 "step_m, degc) VALUES (?, ?, ?, ?, ?)",
		.select = "SELECT length_m, step_m, degc FROM reading_length "
			  "WHERE reading_id = ?",
		.next_id = "SELECT coalesce(max(reading_id), 0) FROM "
			   "reading_length",
		.digest = "SELECT * FROM reading_length WHERE reading_id > ? "
			  "ORDER BY reading_id",
		COLUMNS_OF(reading_length_columns, book_length)},
	[BOOK_READING_SCREW] =
		{.insert = "INSERT INTO reading_screw (reading_id, history_id, "
			   "held_n, broke_n, step_n, diameter_m, depth_m) "
			   "VALUES (?, ?, ?, ?, ?, ?, ?)",
			.select = "SELECT held_n, broke_n, step_n, diameter_m, "
				  "depth_m FROM reading_screw WHERE reading_id "
				  "= ?",
			.next_id = "SELECT coalesce(max(reading_id), 0) FROM "
				   "reading_screw",
			.digest = "SELECT * FROM reading_screw WHERE "
				  "reading_id > ? ORDER BY reading_id",
			COLUMNS_OF(reading_screw_columns, book_screw)},
	[BOOK_READING_FROST] =
		{.insert = "INSERT INTO reading_frost (reading_id, history_id, "
			   "cycles, before_kg, after_kg, mass_step_kg, "
			   "before_m, after_m, length_step_m) VALUES (?, ?, ?, "
			   "?, ?, ?, ?, ?, ?)",
			.select = "SELECT cycles, before_kg, after_kg, "
				  "mass_step_kg, before_m, after_m, "
				  "length_step_m FROM reading_frost WHERE "
				  "reading_id = ?",
			.next_id = "SELECT coalesce(max(reading_id), 0) FROM "
				   "reading_frost",
			.digest = "SELECT * FROM reading_frost WHERE "
				  "reading_id > ? ORDER BY reading_id",
			COLUMNS_OF(reading_frost_columns, book_frost)},
	[BOOK_READING_HOT_BOX] =
		{.insert = "INSERT INTO reading_hot_box (reading_id, "
			   "history_id, power_w, leak_w, area_m2, thickness_m, "
			   "warm_degc, cold_degc, power_step_w, "
			   "temperature_step_k) VALUES (?, ?, ?, ?, ?, ?, ?, "
			   "?, ?, ?)",
			.select = "SELECT power_w, leak_w, area_m2, "
				  "thickness_m, warm_degc, cold_degc, "
				  "power_step_w, temperature_step_k FROM "
				  "reading_hot_box WHERE reading_id = ?",
			.next_id = "SELECT coalesce(max(reading_id), 0) FROM "
				   "reading_hot_box",
			.digest = "SELECT * FROM reading_hot_box WHERE "
				  "reading_id > ? ORDER BY reading_id",
			COLUMNS_OF(reading_hot_box_columns, book_hot_box)},
	[BOOK_PART] = {.what = N_("part of the building"),
		.taken = TAKEN("part", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO part (id, origin, revision, "
			  "history_id, typed, code, name, kind, length_m, "
			  "height_m, thickness_m, openings_m2, volume_m3, "
			  "waste_ratio, batch_m3, note) VALUES (?, ?, ?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, code, name, "
			  "kind, length_m, height_m, thickness_m, "
			  "openings_m2, volume_m3, waste_ratio, batch_m3, "
			  "note FROM part AS t WHERE withdrawn = 0 AND "
			  "origin > ? AND revision = (SELECT max(revision) "
			  "FROM part AS n WHERE n.origin = t.origin) ORDER "
			  "BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM part",
		.next_revision =
			"SELECT coalesce(max(revision), 0) + 1 FROM part "
			"WHERE origin = ?",
		.digest = "SELECT * FROM part WHERE id > ? ORDER BY id",
		COLUMNS_OF(part_columns, book_part)},
	[BOOK_REQUIREMENT] = {.what = N_("requirement"),
		.taken = TAKEN("requirement",
			"part_id = ?2 AND measure = ?3 AND bound = ?4"),
		.key = {0, 1, 2},
		.n_key = 3,
		.insert = "INSERT INTO requirement (id, origin, revision, "
			  "history_id, typed, part_id, measure, bound, "
			  "value, source) VALUES (?, ?, ?, ?, ?, ?, ?, ?, "
			  "?, ?)",
		.select = "SELECT origin, revision, typed, part_id, "
			  "measure, bound, value, source FROM requirement "
			  "AS t WHERE withdrawn = 0 AND origin > ? AND "
			  "revision = (SELECT max(revision) FROM "
			  "requirement AS n WHERE n.origin = t.origin) "
			  "ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM requirement",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "requirement WHERE origin = ?",
		.digest = "SELECT * FROM requirement WHERE id > ? ORDER BY "
			  "id",
		COLUMNS_OF(requirement_columns, book_requirement)},
	[BOOK_DECISION] = {.what = N_("decision"),
		.taken = TAKEN("decision", "part_id = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO decision (id, origin, revision, "
			  "history_id, typed, part_id, mix_id, reason, "
			  "figures) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, part_id, mix_id, "
			  "reason, figures FROM decision AS t WHERE "
			  "withdrawn = 0 AND origin > ? AND revision = "
			  "(SELECT max(revision) FROM decision AS n WHERE "
			  "n.origin = t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM decision",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "decision WHERE origin = ?",
		.digest = "SELECT * FROM decision WHERE id > ? ORDER BY id",
		COLUMNS_OF(decision_columns, book_decision)},
	[BOOK_QUANTITY] =
		{.insert = "INSERT INTO quantity (id, history_id, "
			   "decision_id, what, value, unit) VALUES (?, ?, ?, "
			   "?, ?, ?)",
			.select = "SELECT decision_id, what, value, unit FROM "
				  "quantity ORDER BY id",
			.next_id = "SELECT coalesce(max(id), 0) FROM quantity",
			.digest = "SELECT * FROM quantity WHERE id > ? ORDER "
				  "BY id",
			COLUMNS_OF(quantity_columns, book_quantity)},
	[BOOK_MATERIAL_BASIS] = {.what = N_("figure of a material"),
		.taken = TAKEN(
			"material_basis", "material_id = ?2 AND figure = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert = "INSERT INTO material_basis (id, origin, revision, "
			  "history_id, typed, material_id, figure, basis, "
			  "source) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select =
			"SELECT origin, revision, typed, material_id, figure, "
			"basis, source FROM material_basis AS t WHERE "
			"withdrawn = 0 AND origin > ? AND revision = (SELECT "
			"max(revision) FROM material_basis AS n WHERE "
			"n.origin = t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM material_basis",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "material_basis WHERE origin = ?",
		.digest = "SELECT * FROM material_basis WHERE id > ? ORDER BY "
			  "id",
		COLUMNS_OF(material_basis_columns, book_material_basis)},
	[BOOK_GEAR] = {.what = N_("gear"),
		.taken = TAKEN("gear", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO gear (id, origin, revision, history_id, "
			  "typed, code, mixer_m3, scale_step_kg, spare_ratio) "
			  "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, code, mixer_m3, "
			  "scale_step_kg, spare_ratio FROM gear AS t WHERE "
			  "withdrawn = 0 AND origin > ? AND revision = (SELECT "
			  "max(revision) FROM gear AS n WHERE n.origin = "
			  "t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM gear",
		.next_revision =
			"SELECT coalesce(max(revision), 0) + 1 FROM gear "
			"WHERE origin = ?",
		.digest = "SELECT * FROM gear WHERE id > ? ORDER BY id",
		COLUMNS_OF(gear_columns, book_gear)},
	[BOOK_GENERATOR] = {.what = N_("foam generator"),
		.taken = TAKEN("generator", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert =
			"INSERT INTO generator (id, origin, revision, "
			"history_id, typed, code, metering, target_kg_m3, "
			"vessel_m3, vessel_u_m3, vessel_kg, scale_step_kg, "
			"dilution_ratio, rate_m3_s, note) VALUES (?, ?, ?, ?, "
			"?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, code, metering, "
			  "target_kg_m3, vessel_m3, vessel_u_m3, vessel_kg, "
			  "scale_step_kg, dilution_ratio, rate_m3_s, note FROM "
			  "generator AS t WHERE withdrawn = 0 AND origin > ? "
			  "AND revision = (SELECT max(revision) FROM generator "
			  "AS n WHERE n.origin = t.origin) ORDER BY origin "
			  "LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM generator",
		.next_revision =
			"SELECT coalesce(max(revision), 0) + 1 FROM generator "
			"WHERE origin = ?",
		.digest = "SELECT * FROM generator WHERE id > ? ORDER BY id",
		COLUMNS_OF(generator_columns, book_generator)},
	[BOOK_FOAM_CHECK] = {.what = N_("foam check"),
		.taken = TAKEN("foam_check", "code = ?2"),
		.key = {2},
		.n_key = 1,
		.insert = "INSERT INTO foam_check (id, origin, revision, "
			  "history_id, typed, generator_id, batch_id, code, "
			  "read_on, moment, gross_kg, fill_s, remark, "
			  "read_at_s, batches_before) VALUES (?, ?, ?, ?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select =
			"SELECT " FOAM_CHECK_COLUMNS
			" FROM foam_check AS t WHERE withdrawn = 0 AND "
			"origin > ? AND revision = (SELECT max(revision) FROM "
			"foam_check AS n WHERE n.origin = t.origin) ORDER BY "
			"origin LIMIT ?",
		.at_hand =
			"SELECT " FOAM_CHECK_COLUMNS
			" FROM foam_check AS t WHERE (origin IN (SELECT "
			"max(origin) FROM foam_check WHERE withdrawn = 0 GROUP "
			"BY generator_id) OR batch_id IN (SELECT origin FROM "
			"batch WHERE practice = 1 OR code = ?1)) "
			"AND " NOW("foam_check") " ORDER BY origin",
		.count = "SELECT count(*) FROM foam_check AS t WHERE ?1 IS NOT "
			 "NULL AND " NOW("foam_check"),
		.next_id = "SELECT coalesce(max(id), 0) FROM foam_check",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "foam_check WHERE origin = ?",
		.digest = "SELECT * FROM foam_check WHERE id > ? ORDER BY id",
		COLUMNS_OF(foam_check_columns, book_foam_check)},
	[BOOK_BATCH_PART] = {.what = N_("part of a batch"),
		.taken = TAKEN(
			"batch_part", "batch_id = ?2 AND material_id = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert = "INSERT INTO batch_part (id, origin, revision, "
			  "history_id, typed, batch_id, material_id, mass_kg, "
			  "lot) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select =
			"SELECT origin, revision, typed, batch_id, "
			"material_id, mass_kg, lot FROM batch_part AS t WHERE "
			"withdrawn = 0 AND origin > ? AND revision = (SELECT "
			"max(revision) FROM batch_part AS n WHERE n.origin = "
			"t.origin) ORDER BY origin LIMIT ?",
		.at_hand = "SELECT origin, revision, typed, batch_id, "
			   "material_id, mass_kg, lot FROM batch_part AS t "
			   "WHERE batch_id IN (SELECT origin FROM batch WHERE "
			   "code = ?1) AND " NOW("batch_part") " ORDER BY "
							       "origin",
		.next_id = "SELECT coalesce(max(id), 0) FROM batch_part",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "batch_part WHERE origin = ?",
		.digest = "SELECT * FROM batch_part WHERE id > ? ORDER BY id",
		COLUMNS_OF(batch_part_columns, book_batch_part)},
	[BOOK_TRIAL_SLOT] = {.what = N_("trial place"),
		.taken = TAKEN(
			"trial_slot", "trial_id = ?2 AND batch_code = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert =
			"INSERT INTO trial_slot (id, origin, revision, "
			"history_id, typed, trial_id, batch_code, place, day, "
			"mix_id) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, trial_id, "
			  "batch_code, place, day, mix_id FROM trial_slot AS t "
			  "WHERE withdrawn = 0 AND origin > ? AND revision = "
			  "(SELECT max(revision) FROM trial_slot AS n WHERE "
			  "n.origin = t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM trial_slot",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "trial_slot WHERE origin = ?",
		.digest = "SELECT * FROM trial_slot WHERE id > ? ORDER BY id",
		COLUMNS_OF(trial_slot_columns, book_trial_slot)},
	[BOOK_FORM] = {.what = N_("form"),
		.taken = TAKEN("form", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert =
			"INSERT INTO form (id, origin, revision, history_id, "
			"typed, code, shape, width_m, depth_m, length_m, "
			"diameter_m, note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, "
			"?, ?, ?)",
		.select = "SELECT origin, revision, typed, code, shape, "
			  "width_m, depth_m, length_m, diameter_m, note FROM "
			  "form AS t WHERE " NOW(
				  "form") " AND origin > ? ORDER BY origin "
					  "LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM form",
		.next_revision =
			"SELECT coalesce(max(revision), 0) + 1 FROM form "
			"WHERE origin = ?",
		.digest = "SELECT * FROM form WHERE id > ? ORDER BY id",
		COLUMNS_OF(form_columns, book_form)},
	[BOOK_BENDING_SESSION] = {.what = N_("bending session"),
		.taken = TAKEN(
			"bending_session", "specimen_id = ?2 AND code = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert = "INSERT INTO bending_session (id, origin, revision, "
			  "history_id, typed, specimen_id, code, loading, "
			  "span_m, strap_m, hanger_kg, weights, rig_id) VALUES "
			  "(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, specimen_id, code, "
			  "loading, span_m, strap_m, hanger_kg, weights, "
			  "rig_id FROM bending_session AS t WHERE " NOW(
				  "bending_session") " AND origin > ? ORDER BY "
						     "origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM bending_session",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "bending_session WHERE origin = ?",
		.digest = "SELECT * FROM bending_session WHERE id > ? ORDER BY "
			  "id",
		COLUMNS_OF(bending_session_columns, book_bending_session)},
	[BOOK_BENDING_STEP] = {.what = N_("step of a bending session"),
		.taken = TAKEN("bending_step",
			"specimen_id = ?2 AND code = ?3 AND place = ?4"),
		.key = {0, 1, 2},
		.n_key = 3,
		.insert = "INSERT INTO bending_step (id, origin, revision, "
			  "history_id, typed, specimen_id, code, place, what, "
			  "mass_kg, sag_m, at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, "
			  "?, ?, ?, ?)",
		.select =
			"SELECT origin, revision, typed, specimen_id, code, "
			"place, what, mass_kg, sag_m, at FROM bending_step AS "
			"t WHERE " NOW("bending_step") " AND origin > ? ORDER "
						       "BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM bending_step",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "bending_step WHERE origin = ?",
		.digest = "SELECT * FROM bending_step WHERE id > ? ORDER BY id",
		COLUMNS_OF(bending_step_columns, book_bending_step)},
	[BOOK_PLACING] = {.what = N_("place of a batch"),
		.taken = TAKEN("placing", "batch_id = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO placing (id, origin, revision, "
			  "history_id, typed, batch_id, part_id, lift, "
			  "from_m, to_m, verdict, reason) VALUES (?, ?, ?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, batch_id, part_id, "
			  "lift, from_m, to_m, verdict, reason FROM placing "
			  "AS t WHERE withdrawn = 0 AND origin > ? AND "
			  "revision = (SELECT max(revision) FROM placing AS n "
			  "WHERE n.origin = t.origin) ORDER BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM placing",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "placing WHERE origin = ?",
		.digest = "SELECT * FROM placing WHERE id > ? ORDER BY id",
		COLUMNS_OF(placing_columns, book_placing)},
	[BOOK_PART_USE] = {.what = N_("use of a part"),
		.taken = TAKEN("part_use", "part_id = ?2"),
		.key = {0},
		.n_key = 1,
		.insert =
			"INSERT INTO part_use (id, origin, revision, "
			"history_id, typed, part_id, form, span_m, load_n_m, "
			"area_load_pa, wind_pa, point_load_n, point_width_m, "
			"subgrade_pa, subgrade_sinks_m, modulus_pa, radius_m, "
			"steel_m2, effective_m, yield_pa, lift_m, grip, "
			"moisture_ratio, safety, pitch_rad) VALUES (?, ?, ?, "
			"?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
			"?, ?, ?, ?)",
		.select =
			"SELECT origin, revision, typed, part_id, form, "
			"span_m, load_n_m, area_load_pa, wind_pa, "
			"point_load_n, point_width_m, subgrade_pa, "
			"subgrade_sinks_m, modulus_pa, radius_m, steel_m2, "
			"effective_m, yield_pa, lift_m, grip, moisture_ratio, "
			"safety, pitch_rad FROM part_use AS t WHERE " NOW(
				"part_use") " AND origin > ? ORDER BY origin "
					    "LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM part_use",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "part_use WHERE origin = ?",
		.digest = "SELECT * FROM part_use WHERE id > ? ORDER BY id",
		COLUMNS_OF(part_use_columns, book_part_use)},
	[BOOK_PART_LAYER] = {.what = N_("layer of a part"),
		.taken = TAKEN("part_layer",
			"part_id = ?2 AND side = ?3 AND name = ?4"),
		.key = {0, 1, 2},
		.n_key = 3,
		.insert = "INSERT INTO part_layer (id, origin, revision, "
			  "history_id, typed, part_id, side, name, "
			  "thickness_m, density_kg_m3, strength_pa, "
			  "conductivity_w_mk, resistance_m2k_w, vapour_ratio) "
			  "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, part_id, side, "
			  "name, thickness_m, density_kg_m3, strength_pa, "
			  "conductivity_w_mk, resistance_m2k_w, vapour_ratio "
			  "FROM part_layer AS t WHERE " NOW(
				  "part_layer") " AND origin > ? ORDER BY "
						"origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM part_layer",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "part_layer WHERE origin = ?",
		.digest = "SELECT * FROM part_layer WHERE id > ? ORDER BY id",
		COLUMNS_OF(part_layer_columns, book_part_layer)},
	[BOOK_PREDICTION] = {.what = N_("prediction"),
		.taken = TAKEN("prediction",
			"part_id = ?2 AND mix_id = ?3 AND measure = ?4"),
		.key = {0, 1, 2},
		.n_key = 3,
		.insert = "INSERT INTO prediction (id, origin, revision, "
			  "history_id, typed, part_id, mix_id, measure, "
			  "batches, after_batch_id, low, median, high) VALUES "
			  "(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, part_id, mix_id, "
			  "measure, batches, after_batch_id, low, median, high "
			  "FROM prediction AS t WHERE " NOW(
				  "prediction") " AND origin > ? ORDER BY "
						"origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM prediction",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "prediction WHERE origin = ?",
		.digest = "SELECT * FROM prediction WHERE id > ? ORDER BY id",
		COLUMNS_OF(prediction_columns, book_prediction)},
	[BOOK_WARNING] = {.what = N_("warning"),
		.taken = TAKEN("warning", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO warning (id, origin, revision, "
			  "history_id, typed, code, is_on, limit_1, limit_2, "
			  "limit_3, reason) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, "
			  "?, ?)",
		.select = "SELECT origin, revision, typed, code, is_on, "
			  "limit_1, limit_2, limit_3, reason FROM warning AS t "
			  "WHERE " NOW("warning") " AND origin > ? ORDER BY "
						  "origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM warning",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "warning WHERE origin = ?",
		.digest = "SELECT * FROM warning WHERE id > ? ORDER BY id",
		COLUMNS_OF(warning_columns, book_warning)},
	[BOOK_FOAM_STANDING] = {.what = N_("look at standing foam"),
		.taken = TAKEN("foam_standing",
			"generator_id = ?2 AND code = ?3 AND after_s = ?4"),
		.key = {0, 1, 3},
		.n_key = 3,
		.insert = "INSERT INTO foam_standing (id, origin, revision, "
			  "history_id, typed, generator_id, code, foam_kg, "
			  "after_s, drained_kg, read_on, remark) VALUES (?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, generator_id, code, "
			  "foam_kg, after_s, drained_kg, read_on, remark FROM "
			  "foam_standing AS t WHERE " NOW(
				  "foam_standing") " AND origin > ? ORDER BY "
						   "origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM foam_standing",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "foam_standing WHERE origin = ?",
		.digest =
			"SELECT * FROM foam_standing WHERE id > ? ORDER BY id",
		COLUMNS_OF(foam_standing_columns, book_foam_standing)},
	[BOOK_RIG] = {.what = N_("rig"),
		.taken = TAKEN("rig", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO rig (id, origin, revision, history_id, "
			  "typed, code, test, loading, span_m, strap_m, "
			  "hanger_kg, bar_kg, height_m, tip, tip_diameter_m, "
			  "tip_angle_rad, ram_m, gauge_step_pa, rule_step_m, "
			  "scale_step_kg, note) VALUES (?, ?, ?, ?, ?, ?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, code, test, "
			  "loading, span_m, strap_m, hanger_kg, bar_kg, "
			  "height_m, tip, tip_diameter_m, tip_angle_rad, "
			  "ram_m, gauge_step_pa, rule_step_m, scale_step_kg, "
			  "note FROM rig AS t WHERE " NOW(
				  "rig") " AND origin > ? ORDER BY origin "
					 "LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM rig",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "rig WHERE origin = ?",
		.digest = "SELECT * FROM rig WHERE id > ? ORDER BY id",
		COLUMNS_OF(rig_columns, book_rig)},
	[BOOK_RIG_CHECK] = {.what = N_("check of a rig"),
		.taken = TAKEN("rig_check", "rig_id = ?2 AND code = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert = "INSERT INTO rig_check (id, origin, revision, "
			  "history_id, typed, rig_id, code, what, read_on, "
			  "known_kg, found_kg, gauge_pa, zero_pa, height_m, "
			  "speed_m_s, dent_m, piece, remark) VALUES (?, ?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, rig_id, code, what, "
			  "read_on, known_kg, found_kg, gauge_pa, zero_pa, "
			  "height_m, speed_m_s, dent_m, piece, remark FROM "
			  "rig_check AS t WHERE " NOW(
				  "rig_check") " AND origin > ? ORDER BY "
					       "origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM rig_check",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "rig_check WHERE origin = ?",
		.digest = "SELECT * FROM rig_check WHERE id > ? ORDER BY id",
		COLUMNS_OF(rig_check_columns, book_rig_check)},
	[BOOK_FILE] = {.what = N_("file"),
		.taken = TAKEN("file", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO file (id, origin, revision, history_id, "
			  "typed, code, name, media, bytes) VALUES (?, ?, ?, "
			  "?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, code, name, media, "
			  "bytes FROM file AS t WHERE " NOW(
				  "file") " AND origin > ? ORDER BY origin "
					  "LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM file",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "file WHERE origin = ?",
		.digest = "SELECT * FROM file WHERE id > ? ORDER BY id",
		COLUMNS_OF(file_columns, book_file)},
	[BOOK_FILE_PIECE] =
		{.insert = "INSERT INTO file_piece (id, history_id, file_id, "
			   "place, bytes) VALUES (?, ?, ?, ?, ?)",
			.next_id =
				"SELECT coalesce(max(id), 0) FROM file_piece",
			.digest = "SELECT * FROM file_piece WHERE id > ? ORDER "
				  "BY id"},
	[BOOK_TRACE] = {.what = N_("trace"),
		.taken = TAKEN("trace", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO trace (id, origin, revision, "
			  "history_id, typed, code, file_id, specimen_id, "
			  "kind, how, rows, skipped, dated, first_s, last_s, "
			  "gap_s, gap_at_s, division, highest, lowest, zero, "
			  "crack_n, after_n, end_n, stiffness_n_m, energy_j, "
			  "crack_energy_j, blow_s, speed_lost_m_s, depth_m) "
			  "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, code, file_id, "
			  "specimen_id, kind, how, rows, skipped, dated, "
			  "first_s, last_s, gap_s, gap_at_s, division, "
			  "highest, lowest, zero, crack_n, after_n, end_n, "
			  "stiffness_n_m, energy_j, crack_energy_j, blow_s, "
			  "speed_lost_m_s, depth_m FROM trace AS t WHERE " NOW(
				  "trace") " AND origin > ? ORDER BY origin "
					   "LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM trace",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "trace WHERE origin = ?",
		.digest = "SELECT * FROM trace WHERE id > ? ORDER BY id",
		COLUMNS_OF(trace_columns, book_trace)},
	[BOOK_TRACE_POINT] =
		{.insert = "INSERT INTO trace_point (id, history_id, trace_id, "
			   "place, from_s, to_s, mean, low, high, sag_m) "
			   "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
			.select =
				"SELECT trace_id, place, from_s, to_s, mean, "
				"low, high, sag_m FROM trace_point ORDER BY id",
			.next_id =
				"SELECT coalesce(max(id), 0) FROM trace_point",
			.digest = "SELECT * FROM trace_point WHERE id > ? "
				  "ORDER BY id",
			COLUMNS_OF(trace_point_columns, book_trace_point)},
	[BOOK_CURE] = {.what = N_("cure"),
		.taken = TAKEN("cure", "batch_id = ?2 AND code = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert = "INSERT INTO cure (id, origin, revision, history_id, "
			  "typed, batch_id, code, from_s, to_s, degc, "
			  "trace_id, keeping, remark) VALUES (?, ?, ?, ?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, batch_id, code, "
			  "from_s, to_s, degc, trace_id, keeping, remark FROM "
			  "cure AS t WHERE " NOW(
				  "cure") " AND origin > ? ORDER BY origin "
					  "LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM cure",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "cure WHERE origin = ?",
		.digest = "SELECT * FROM cure WHERE id > ? ORDER BY id",
		COLUMNS_OF(cure_columns, book_cure)},
	[BOOK_USUAL] = {.what = N_("usual requirement"),
		.taken = TAKEN("usual_requirement",
			"form = ?2 AND measure = ?3 AND bound = ?4"),
		.key = {0, 1, 2},
		.n_key = 3,
		.insert = "INSERT INTO usual_requirement (id, origin, "
			  "revision, history_id, typed, form, measure, bound, "
			  "value, is_asked, source) VALUES (?, ?, ?, ?, ?, ?, "
			  "?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, form, measure, "
			  "bound, value, is_asked, source FROM "
			  "usual_requirement AS t WHERE " NOW(
				  "usual_requirement") " AND origin > ? ORDER "
						       "BY origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM usual_requirement",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "usual_requirement WHERE origin = ?",
		.digest = "SELECT * FROM usual_requirement WHERE id > ? ORDER "
			  "BY id",
		COLUMNS_OF(usual_columns, book_usual)},
	[BOOK_WEIGHT] = {.what = N_("weight of the choice"),
		.taken = TAKEN(
			"choice_weight", "part_id IS ?2 AND criterion = ?3"),
		.key = {0, 1},
		.n_key = 2,
		.insert = "INSERT INTO choice_weight (id, origin, revision, "
			  "history_id, typed, part_id, criterion, weight) "
			  "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
		.select =
			"SELECT origin, revision, typed, part_id, "
			"criterion, weight FROM choice_weight AS t WHERE " NOW(
				"choice_weight") " AND origin > ? ORDER BY "
						 "origin LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM choice_weight",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "choice_weight WHERE origin = ?",
		.digest =
			"SELECT * FROM choice_weight WHERE id > ? ORDER BY id",
		COLUMNS_OF(weight_columns, book_weight)},
	[BOOK_PHOTO] = {.what = N_("photo"),
		.taken = TAKEN("photo", "code = ?2"),
		.key = {0},
		.n_key = 1,
		.insert = "INSERT INTO photo (id, origin, revision, "
			  "history_id, typed, code, batch_id, file_id, "
			  "added_s, width, height, remark) VALUES (?, ?, ?, "
			  "?, ?, ?, ?, ?, ?, ?, ?, ?)",
		.select = "SELECT origin, revision, typed, code, batch_id, "
			  "file_id, added_s, width, height, remark FROM photo "
			  "AS t WHERE " NOW(
				  "photo") " AND origin > ? ORDER BY origin "
					   "LIMIT ?",
		.next_id = "SELECT coalesce(max(id), 0) FROM photo",
		.next_revision = "SELECT coalesce(max(revision), 0) + 1 FROM "
				 "photo WHERE origin = ?",
		.digest = "SELECT * FROM photo WHERE id > ? ORDER BY id",
		COLUMNS_OF(photo_columns, book_photo)},
};
