import { BATTERY, RPM } from './parts.ts'
import type { RunKind, RunSpec } from './spec.ts'

/** What is measured on the ground, or with an instrument of its own. */
export const GROUND_SPECS = {
  staticPull: {
    label: 'Static pull',
    about: 'What a scale reads at full throttle',
    numbers: [
      { at: 'thrustN', label: 'Pull', dimension: 'force' },
      { at: 'headwindMps', label: 'Wind from ahead', dimension: 'speed', isOptional: true },
      { at: 'lineAngleDeg', label: 'Angle of the line', sign: '°', isOptional: true },
      RPM,
      ...BATTERY,
    ],
    choices: [],
    hasStopwatch: false,
    caution:
      'Tie the frame down, keep everybody out of the plane of the propeller and out of its blast, and have the kill switch in hand.',
  },
  soundLevel: {
    label: 'Sound level',
    about: 'A-weighted decibels',
    numbers: [
      { at: 'levelDbA', label: 'Level', sign: 'dB(A)' },
      { at: 'backgroundDbA', label: 'Background alone', sign: 'dB(A)', isOptional: true },
      {
        at: 'distanceM',
        label: 'Distance from the propeller hub',
        dimension: 'height',
        onlyIf: ['position', 'distance'],
      },
      {
        at: 'directionDeg',
        label: 'Direction from the hub',
        hint: '0 straight ahead of the pilot, 90 to the right',
        sign: '°',
        isOptional: true,
        isExact: true,
        onlyIf: ['position', 'distance'],
      },
      RPM,
    ],
    choices: [
      {
        at: 'position',
        label: 'Measured',
        choices: [
          ['pilotEar', 'At the ear of the pilot'],
          ['distance', 'At a distance'],
        ],
      },
      {
        at: 'power',
        label: 'Engine gave',
        choices: [
          ['full', 'Full throttle'],
          ['level', 'What level flight needs'],
        ],
      },
      {
        at: 'instrument',
        label: 'Read with',
        choices: [
          ['phone', 'A phone'],
          ['class2', 'A sound level meter'],
        ],
      },
      {
        at: 'surface',
        label: 'Ground between propeller and microphone',
        choices: [
          ['', 'Not noted'],
          ['grass', 'Grass'],
          ['soil', 'Soil'],
          ['hard', 'Hard'],
          ['sand', 'Sand'],
          ['snow', 'Snow'],
        ],
        onlyIf: ['position', 'distance'],
      },
    ],
    hasStopwatch: false,
    caution:
      'Full power harms hearing within minutes: wear protection, and keep to the hours and limits of the place.',
  },
  tipClearance: {
    label: 'Propeller clearance',
    about: 'Gap between blade tip and frame',
    numbers: [
      { at: 'staticClearanceMm', label: 'Smallest gap at rest', sign: 'mm' },
      {
        at: 'loadedClearanceMm',
        label: 'The same under load',
        sign: 'mm',
        isOptional: true,
      },
      {
        at: 'loadN',
        label: 'Pull that loaded it',
        hint: 'Left open, that of full throttle is taken',
        dimension: 'force',
        isOptional: true,
      },
    ],
    choices: [
      {
        at: 'contactSeen',
        label: 'Did the propeller touch, or is there a trace of it?',
        choices: [
          ['', 'Look, then answer'],
          ['false', 'No'],
          ['true', 'Yes'],
        ],
        isNeeded: true,
        isYesNo: true,
      },
    ],
    hasStopwatch: false,
    caution:
      'Measure under load with the engine stopped and the frame pulled by hand or strap; never reach near a turning propeller.',
  },
} satisfies Partial<Record<RunKind, RunSpec>>
