// Written by `npm run openapi` from openapi/openapi.json; a test fails when it is stale.

export interface paths {
    "/.well-known/jwks.json": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Public keys of the access tokens (RFC 7517) */
        get: operations["getKeySet"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/healthz": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Whether the process is alive
         * @description Does not ask the database: restart the process when this fails.
         */
        get: operations["getHealth"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/readyz": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Whether the service can serve
         * @description Asks the database: send no requests here while this fails.
         */
        get: operations["getReadiness"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/accounts": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Open an account
         * @description Gives no token: sign in with POST /v1/tokens. An Idempotency-Key is not needed, since an e-mail address is taken once.
         */
        post: operations["createAccount"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/accounts/{id}/role": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        /**
         * Give an account another role
         * @description Holds from the next request of that account on. The only administrator keeps the role.
         */
        patch: operations["changeRole"];
        trace?: never;
    };
    "/v1/api-keys": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** List the own API keys */
        get: operations["listApiKeys"];
        put?: never;
        /**
         * Make an API key
         * @description The key is shown in this answer and never again. It works wherever an access token does. Takes no Idempotency-Key: an answer that could be replayed would have to be stored, key and all.
         */
        post: operations["createApiKey"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/api-keys/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        /**
         * Revoke an API key
         * @description The next request with that key is refused.
         */
        delete: operations["deleteApiKey"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/atmosphere": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * The air of a place, and the power it leaves an engine
         * @description From elevation and temperature, with QNH or station pressure (or neither: then that of the standard atmosphere) and humidity. Moist air by CIPM-2007, dry air by the gas law, both on ISO 2533.
         */
        get: operations["getAtmosphere"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/comparisons": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Compare setups at stated conditions
         * @description The named setups side by side and every pair of them, with intervals and verdicts. Where the evidence does not support a number, the pair is refused and says why.
         */
        get: operations["compareSetups"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/components": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List or search components
         * @description By name, or with q the best matches first. Merged duplicates are not listed; a search for their name finds what they were merged into.
         */
        get: operations["listComponents"];
        put?: never;
        /**
         * Add a component
         * @description One record per thing: the same kind, maker and model (ignoring case, spaces and hyphens) is refused with 409 and the id of the known one, unless something that tells them apart is stated and differs: drive, displacementCc, reductionRatio, tune of a powerplant; diameterCm, pitchCm, blades, material of a propeller; hoopInnerDiameterCm of a frame; flatAreaM2 of a wing.
         */
        post: operations["addComponent"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/components/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read one component
         * @description The id of a merged duplicate keeps working: the answer is the component that remains, with its own id, and mergedIntoId says so. Content-Location names it.
         */
        get: operations["getComponent"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/fits/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read the model behind an answer
         * @description Variance components on the scale of the logarithm, counts and state of a fit. It never changes.
         */
        get: operations["readFit"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/me": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Read the own account */
        get: operations["getOwnAccount"];
        put?: never;
        post?: never;
        /**
         * Close the own account
         * @description For good: e-mail and name are overwritten, sessions and API keys end at once. Submissions stay as evidence without a name; withdraw them first if they should not count. The only administrator cannot leave.
         */
        delete: operations["closeOwnAccount"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/me/export": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read everything stored about oneself
         * @description The account, its API keys and sessions without their secrets, and its submissions with every revision as it was submitted.
         */
        get: operations["exportOwnAccount"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/normalizations": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Normalise the runs of a session without storing them
         * @description Takes the body of a submission. An entry may give its equipment in place of a set-up of the catalogue.
         */
        post: operations["normalize"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/rankings": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Rank setups for a weight class
         * @description The largest group of setups that can be compared with one another, best first, with the uncertainty of each rank; the rest with the reason why not; unsafe setups set aside.
         */
        get: operations["rankSetups"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/setups": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List or search setups
         * @description By name, or with q the best matches first, looked for in all three parts. Every row carries its safety state; the order does not depend on it.
         */
        get: operations["listSetups"];
        put?: never;
        /**
         * Add a setup
         * @description One record per combination of powerplant, propeller and frame: a known one is refused with 409 and its id. Ids of merged duplicates are replaced by what they were merged into.
         */
        post: operations["addSetup"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/setups/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read one setup with its safety reports
         * @description The id of a merged duplicate keeps working: the answer is the setup that remains, with its own id, and mergedIntoId says so. Content-Location names it.
         */
        get: operations["getSetup"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/submissions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List own submissions, or those that flew a set-up
         * @description Give mine=true (needs an account) or setupId.
         */
        get: operations["listSubmissions"];
        put?: never;
        /**
         * Submit a session of flying
         * @description Stores the raw values and the normalised result of every run, all of it or nothing.
         */
        post: operations["createSubmission"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/submissions/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read one submission with its normalised results
         * @description Its owner and moderators see all of it. Everybody else sees the results, the month and rounded conditions; 410 once it was withdrawn.
         */
        get: operations["getSubmission"];
        put?: never;
        post?: never;
        /**
         * Withdraw a submission
         * @description It no longer counts; its owner can still read it. Doing it again is harmless.
         */
        delete: operations["withdrawSubmission"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/submissions/{id}/revisions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Read the history of a submission, the last revision first */
        get: operations["listRevisions"];
        put?: never;
        /**
         * Correct a submission
         * @description Takes the whole body anew. What was there before is kept as a revision.
         */
        post: operations["reviseSubmission"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/tokens": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Sign in, or continue a session
         * @description A refresh token works once and lives 30 days; the answer holds its successor. Showing one that was used before ends the session, because somebody has a copy of it.
         */
        post: operations["createTokens"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/tokens/current": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        /**
         * Sign out
         * @description Ends the session of the access token; it and the refresh token of the session are refused at once. Other sessions go on.
         */
        delete: operations["deleteCurrentTokens"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
}
export type webhooks = Record<string, never>;
export interface components {
    schemas: {
        Account: {
            /** Format: date-time */
            createdAt: string;
            displayName: string;
            email: string;
            /** Format: uuid */
            id: string;
            /** @enum {string} */
            role: "pilot" | "dealer" | "researcher" | "moderator" | "admin";
        };
        AccountExport: {
            account: components["schemas"]["Account"];
            apiKeys: {
                /** Format: date-time */
                createdAt: string;
                /** Format: uuid */
                id: string;
                lastUsedAt: string | null;
                name: string;
                prefix: string;
                revokedAt: string | null;
            }[];
            /** @description Catalogue components entered by this account */
            componentsAdded: string[];
            /** Format: date-time */
            exportedAt: string;
            sessions: {
                /** Format: uuid */
                id: string;
                /** Format: date-time */
                lastRefreshedAt: string;
                revoked: boolean;
                /** Format: date-time */
                startedAt: string;
            }[];
            /** @description Setups entered by this account */
            setupsAdded: string[];
            submissions: {
                /** Format: date-time */
                createdAt: string;
                currentRevision: number;
                /** Format: uuid */
                id: string;
                revisions: {
                    /** @description As it was submitted */
                    body: unknown;
                    /** Format: date-time */
                    createdAt: string;
                    number: number;
                }[];
                withdrawnAt: string | null;
            }[];
        };
        Alive: {
            /** @constant */
            status: "alive";
        };
        ApiKey: {
            /** Format: date-time */
            createdAt: string;
            /** Format: uuid */
            id: string;
            /** @description To the minute; null before the first use */
            lastUsedAt: string | null;
            name: string;
            /** @description First characters of the key */
            prefix: string;
        };
        ApiKeyPage: {
            items: components["schemas"]["ApiKey"][];
            nextCursor: string | null;
        };
        Atmosphere: {
            /** @description Density of the moist air [kg/m³] */
            airDensityKgPerM3: number;
            /** @description What was not given and had to be assumed */
            readonly assumed: string[];
            /** @description Where the standard atmosphere has this density [m, geopotential] */
            densityAltitudeM: number;
            /** @description Density over that of the standard atmosphere at sea level */
            densityRatio: number;
            /** @description Full-throttle power of a naturally aspirated piston engine over that in the standard atmosphere at sea level; about 0.15 of its distance from 1 is uncertain. An electric drive limited in power has 1 */
            fullThrottlePowerRatio: number;
            /** @description Where the standard atmosphere has this pressure [m, geopotential] */
            pressureAltitudeM: number;
            /** @description Speed of sound, of dry air at this temperature [m/s] */
            speedOfSoundMps: number;
            /** @description Pressure at the place itself [hPa] */
            stationPressureHPa: number;
        };
        ComparedPair: {
            /** Format: uuid */
            a: string;
            /** Format: uuid */
            b: string;
            degreesOfFreedom?: number;
            /** @description 100 (a/b − 1) at the conditions */
            differencePercent?: number;
            equivalents?: components["schemas"]["Equivalents"];
            /** @enum {string} */
            evidence: "direct" | "connected" | "additive" | "betweenSessions" | "none";
            interval95Percent?: [
                number,
                number
            ];
            probabilityABetter?: number;
            /** @description Why no number is given */
            reason?: string;
            /** @enum {string} */
            reasonCode?: "noEvidence" | "oneSession" | "notConnected" | "doesNotClimb" | "outsideModel" | "notEstimable";
            /** @description The verdict in plain words */
            sentence: string;
            /** @enum {string} */
            verdict: "aBetter" | "bBetter" | "practicallyEqual" | "notResolved" | "refused";
        };
        ComparedSetup: {
            degreesOfFreedom: number | null;
            evidence: components["schemas"]["EvidenceCount"];
            interval95: [
                number,
                number
            ] | null;
            name: string;
            /** @description Among the setups that can be ranked with one another */
            rank: components["schemas"]["Rank"] | null;
            /** @description Why no value is given */
            refused?: components["schemas"]["Refused"];
            safety: components["schemas"]["SafetyState"];
            /** Format: uuid */
            setupId: string;
            standardUncertainty: number | null;
            /** @description At the conditions; null where refused */
            value: number | null;
        };
        Comparison: {
            /** @enum {string} */
            better: "higher" | "lower";
            cautions: string[];
            conditions: components["schemas"]["Conditions"];
            /** @description A difference inside this margin is practically equal */
            equivalenceMarginPercent: number;
            fitId: string;
            metric: components["schemas"]["Metric"];
            pairs: components["schemas"]["ComparedPair"][];
            setups: components["schemas"]["ComparedSetup"][];
            unit: string;
        };
        Component: components["schemas"]["Powerplant"] | components["schemas"]["Propeller"] | components["schemas"]["Frame"] | components["schemas"]["Wing"];
        ComponentPage: {
            items: components["schemas"]["Component"][];
            nextCursor: string | null;
        };
        Conditions: {
            /** @description Density of dry air there */
            airDensityKgPerM3: number;
            allUpMassKg: number;
            /** @description What was taken for granted because the query left it open */
            assumed: string[];
            elevationM: number;
            temperatureC: number;
            wing: {
                flatAreaM2: number;
                /** @description Of the system: wing, pilot and running frame */
                glideRatio: number;
                id: string | null;
                trimAtAllUpMassKg: number;
                /** @description Level trim airspeed at the all-up mass beside it, sea level */
                trimSpeedMps: number;
            };
        };
        CreatedApiKey: {
            /** Format: date-time */
            createdAt: string;
            /** Format: uuid */
            id: string;
            /** @description The key itself, for "Authorization: Bearer"; shown only now */
            key: string;
            /** @description To the minute; null before the first use */
            lastUsedAt: string | null;
            name: string;
            /** @description First characters of the key */
            prefix: string;
        };
        /** @description The same difference in the quantities it is often confused with: the percents differ */
        Equivalents: {
            climbRatePercent?: number;
            climbThrustPercent?: number;
            /** @description Time from the same tank */
            endurancePercent?: number;
            fuelFlowPercent?: number;
            /** @description Useful power the propeller gives to the air */
            inducedPowerPercent?: number;
        };
        EvidenceCount: {
            /** @description Sessions in which it was flown together with another setup */
            independentSessions: number;
            /** @description Sessions submitted by somebody who sells, makes or was given what they tested */
            interestedSessions: number;
            pilots: number;
            runs: number;
            sessions: number;
        };
        Fit: {
            converged: boolean;
            counts: {
                /** @description Setups within sessions */
                cells: number;
                pilots: number;
                runs: number;
                sessions: number;
                setups: number;
            };
            /** Format: date-time */
            createdAt: string;
            /** @description Hash of the evidence and of the versions of method and model */
            id: string;
            /** @description Restricted; null without runs */
            logLikelihood: number | null;
            methodVersion: string;
            modelVersion: string;
            /** @enum {string} */
            quantity: "inducedPower" | "fuelFlow";
            /**
             * @description Variances are of the logarithm: 0.0004 is about 2 %
             * @constant
             */
            scale: "naturalLogarithm";
            /** @description False where the runs do not show how much results scatter */
            standardErrorsKnown: boolean;
            varianceComponents: {
                cell: {
                    /** @description Left to it by the design */
                    degreesOfFreedom: number;
                    mergedInto: ("pilot" | "session" | "cell" | "run") | null;
                    /**
                     * @description notDetected: the estimate is zero; notSeparable: the flights cannot tell it apart
                     * @enum {string}
                     */
                    status: "estimated" | "notDetected" | "notSeparable" | "fixed";
                    variance: number;
                };
                pilot: {
                    /** @description Left to it by the design */
                    degreesOfFreedom: number;
                    mergedInto: ("pilot" | "session" | "cell" | "run") | null;
                    /**
                     * @description notDetected: the estimate is zero; notSeparable: the flights cannot tell it apart
                     * @enum {string}
                     */
                    status: "estimated" | "notDetected" | "notSeparable" | "fixed";
                    variance: number;
                };
                run: {
                    /** @description Left to it by the design */
                    degreesOfFreedom: number;
                    mergedInto: ("pilot" | "session" | "cell" | "run") | null;
                    /**
                     * @description notDetected: the estimate is zero; notSeparable: the flights cannot tell it apart
                     * @enum {string}
                     */
                    status: "estimated" | "notDetected" | "notSeparable" | "fixed";
                    variance: number;
                };
                session: {
                    /** @description Left to it by the design */
                    degreesOfFreedom: number;
                    mergedInto: ("pilot" | "session" | "cell" | "run") | null;
                    /**
                     * @description notDetected: the estimate is zero; notSeparable: the flights cannot tell it apart
                     * @enum {string}
                     */
                    status: "estimated" | "notDetected" | "notSeparable" | "fixed";
                    variance: number;
                };
            };
        };
        Frame: {
            /** Format: date-time */
            createdAt: string;
            /** @description Depth of the hoop along the flow [mm] */
            hoopDepthMm?: number;
            /** @description Inner diameter of the cage hoop [cm] */
            hoopInnerDiameterCm?: number;
            /** Format: uuid */
            id: string;
            /** @constant */
            kind: "frame";
            /** @description Who makes it */
            maker: string;
            /** @description Mass with harness, without powerplant [kg] */
            massKg?: number;
            /**
             * Format: uuid
             * @description The id asked for is of a duplicate that was merged; this is the component that remains, and the one shown
             */
            mergedIntoId?: string;
            /** @description What it is sold as */
            model: string;
            /** @description What it cost, and when */
            price?: {
                /** @description In units of the currency */
                amount: number;
                /**
                 * Format: date
                 * @description Day on which the price was seen
                 */
                asOf: string;
                /** @description ISO 4217 */
                currency: string;
            };
            /** @description Height of the propeller axis above the hang points [mm]; negative below */
            thrustLineAboveMountsMm?: number;
        };
        FullSubmission: {
            /**
             * Format: uuid
             * @description Who submitted
             */
            accountId: string;
            conditions: {
                /**
                 * @description The pilot's word for the vertical motion of the air
                 * @enum {string}
                 */
                airMotion: "calm" | "light" | "active" | "thermic";
                /** @description Altimeter setting QNH [hPa]; not QFE, not QFF */
                qnhHPa?: number;
                /** @description Relative humidity at the field [%] */
                relativeHumidityPct?: number;
                /** @description Pressure at the field itself [hPa], in place of qnhHPa */
                stationPressureHPa?: number;
                /** @description Air temperature at the field [°C] */
                temperatureC: number;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    qnhHPa?: number;
                    relativeHumidityPct?: number;
                    stationPressureHPa?: number;
                    temperatureC?: number;
                    windMps?: number;
                };
                /** @description Wind at the field [m/s] */
                windMps?: number;
            };
            /**
             * Format: date-time
             * @description When the submission came in
             */
            createdAt: string;
            /** @description Number of the revision that counts */
            currentRevision: number;
            entries: {
                /** @description Pilot, clothing, wing, frame, engine and fuel at the start of the run [kg] */
                allUpMassKg: number;
                /** @description Running time of the engine so far [h] */
                engineHours?: number;
                /**
                 * @description How allUpMassKg is known; absent: treated as estimated
                 * @enum {string}
                 */
                massSource?: "weighed" | "estimated";
                runs: ({
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Height gained at full throttle, as the source showed it [m] */
                    heightGainM: number;
                    /**
                     * @description How the height gain was read
                     * @enum {string}
                     */
                    heightSource: "barometric" | "barometricTemperatureCompensated" | "gnss" | "unknown";
                    /** @constant */
                    kind: "climb";
                    normalized: components["schemas"]["Normalized"];
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Height above the field at the start [m] */
                    startHeightAboveSiteM: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        heightGainM?: number;
                        rpm?: number;
                        startHeightAboveSiteM?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Temperature of the fuel when measured [°C] */
                    fuelTemperatureC?: number;
                    /** @description Mean height above the field [m] */
                    heightAboveSiteM: number;
                    /** @description Height at the end less height at the start [m] */
                    heightChangeM: number;
                    /** @constant */
                    kind: "fuelBurn";
                    normalized: components["schemas"]["Normalized"];
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        fuelTemperatureC?: number;
                        heightAboveSiteM?: number;
                        heightChangeM?: number;
                        rpm?: number;
                        volumeMl?: number;
                    };
                    /** @description Fuel burned in level flight, at the temperature of the fuel [mL] */
                    volumeMl: number;
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                })[];
                /**
                 * Format: uuid
                 * @description The set-up that was flown, from GET /v1/setups
                 */
                setupId: string;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    allUpMassKg?: number;
                };
            }[];
            /**
             * Format: date
             * @description Local date of the flights
             */
            flownOn: string;
            /** Format: uuid */
            id: string;
            /**
             * @description Interest in the result, declared by who submits
             * @enum {string}
             */
            interest: "none" | "dealer" | "maker" | "sponsored";
            /** @description Version of the normalisation that gave these results */
            methodVersion: string;
            /** @description Shown to nobody but its owner */
            note?: string;
            pilot: {
                /** @description Pilot with clothing [kg] */
                massKg: number;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    massKg?: number;
                };
            };
            /** @description Reference state of these results */
            referenceId: string;
            /**
             * Format: date-time
             * @description When the revision shown came in
             */
            revisedAt: string;
            /** @description Number of the revision shown */
            revision: number;
            site: {
                /** @description Height of the field above mean sea level [m] */
                elevationM: number;
                /** @description Name of the field; shown to nobody but its owner */
                name: string;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    elevationM?: number;
                };
            };
            /** @constant */
            view: "full";
            /** @description Doubts that belong to no single run */
            warnings: {
                code: string;
                detail: string;
                /** @description JSON Pointer (RFC 6901) into the submission body */
                pointer: string;
            }[];
            /** @description A wing of the catalogue by its id alone, or one described here */
            wing: {
                /** @description Flat area [m²]; required without id */
                flatAreaM2?: number;
                /** @description Glide ratio; a catalogue figure is that of the bare wing and is reduced for pilot and cage */
                glideRatio?: number;
                /**
                 * @description Where the glide ratio comes from
                 * @enum {string}
                 */
                glideSource?: "measured" | "catalogue" | "estimated";
                /**
                 * Format: uuid
                 * @description A wing of the catalogue; then nothing else is given
                 */
                id?: string;
                /** @description All-up mass to which trimSpeedMps refers [kg] */
                trimAtAllUpMassKg?: number;
                /** @description Airspeed in level trimmed flight, in standard air at sea level [m/s] */
                trimSpeedMps?: number;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    flatAreaM2?: number;
                    glideRatio?: number;
                    trimAtAllUpMassKg?: number;
                    trimSpeedMps?: number;
                };
            };
            withdrawnAt: string | null;
        };
        KeySet: {
            keys: {
                /** @constant */
                alg: "EdDSA";
                /** @constant */
                crv: "Ed25519";
                kid: string;
                /** @constant */
                kty: "OKP";
                /** @constant */
                use: "sig";
                x: string;
            }[];
        };
        /**
         * @description Class of all-up mass [kg]; conditions take 90, 110, 130, 155 or 210 kg for it
         * @enum {string}
         */
        MassClass: "under100" | "100to120" | "120to140" | "140to170" | "tandem";
        /**
         * @description What is compared; higher is better for climbRate and climbThrust, lower for fuelFlow
         * @enum {string}
         */
        Metric: "climbRate" | "climbThrust" | "fuelFlow";
        /**
         * @description What is compared; higher is better for climbRate and climbThrust, lower for fuelFlow
         * @enum {string}
         */
        MetricInput: "climbRate" | "climbThrust" | "fuelFlow";
        NewAccount: {
            /** @description Name shown beside what this account writes */
            displayName: string;
            /**
             * Format: email
             * @description E-mail address; upper and lower case are the same
             */
            email: string;
            /** @description Any characters; neither the e-mail address nor the display name */
            password: string;
        };
        NewApiKey: {
            /** @description What the key is for, to tell keys apart */
            name: string;
        };
        NewComponent: components["schemas"]["NewPowerplant"] | components["schemas"]["NewPropeller"] | components["schemas"]["NewFrame"] | components["schemas"]["NewWing"];
        NewFrame: {
            /** @description Depth of the hoop along the flow [mm] */
            hoopDepthMm?: number;
            /** @description Inner diameter of the cage hoop [cm] */
            hoopInnerDiameterCm?: number;
            /** @constant */
            kind: "frame";
            /** @description Who makes it */
            maker: string;
            /** @description Mass with harness, without powerplant [kg] */
            massKg?: number;
            /** @description What it is sold as */
            model: string;
            /** @description What it cost, and when */
            price?: {
                /** @description In units of the currency */
                amount: number;
                /**
                 * Format: date
                 * @description Day on which the price was seen
                 */
                asOf: string;
                /** @description ISO 4217 */
                currency: string;
            };
            /** @description Height of the propeller axis above the hang points [mm]; negative below */
            thrustLineAboveMountsMm?: number;
        };
        NewNormalization: {
            conditions: {
                /**
                 * @description The pilot's word for the vertical motion of the air
                 * @enum {string}
                 */
                airMotion: "calm" | "light" | "active" | "thermic";
                /** @description Altimeter setting QNH [hPa]; not QFE, not QFF */
                qnhHPa?: number;
                /** @description Relative humidity at the field [%] */
                relativeHumidityPct?: number;
                /** @description Pressure at the field itself [hPa], in place of qnhHPa */
                stationPressureHPa?: number;
                /** @description Air temperature at the field [°C] */
                temperatureC: number;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    qnhHPa?: number;
                    relativeHumidityPct?: number;
                    stationPressureHPa?: number;
                    temperatureC?: number;
                    windMps?: number;
                };
                /** @description Wind at the field [m/s] */
                windMps?: number;
            };
            entries: {
                /** @description Pilot, clothing, wing, frame, engine and fuel at the start of the run [kg] */
                allUpMassKg: number;
                /** @description Running time of the engine so far [h] */
                engineHours?: number;
                /** @description In place of setupId: what a set-up would say */
                equipment?: {
                    /** @enum {string} */
                    drive: "twoStroke" | "fourStroke" | "electric";
                    /** @description Diameter of the propeller [cm] */
                    propellerDiameterCm: number;
                };
                /**
                 * @description How allUpMassKg is known; absent: treated as estimated
                 * @enum {string}
                 */
                massSource?: "weighed" | "estimated";
                runs: ({
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Height gained at full throttle, as the source showed it [m] */
                    heightGainM: number;
                    /**
                     * @description How the height gain was read
                     * @enum {string}
                     */
                    heightSource: "barometric" | "barometricTemperatureCompensated" | "gnss" | "unknown";
                    /** @constant */
                    kind: "climb";
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Height above the field at the start [m] */
                    startHeightAboveSiteM: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        heightGainM?: number;
                        rpm?: number;
                        startHeightAboveSiteM?: number;
                    };
                } | {
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Temperature of the fuel when measured [°C] */
                    fuelTemperatureC?: number;
                    /** @description Mean height above the field [m] */
                    heightAboveSiteM: number;
                    /** @description Height at the end less height at the start [m] */
                    heightChangeM: number;
                    /** @constant */
                    kind: "fuelBurn";
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        fuelTemperatureC?: number;
                        heightAboveSiteM?: number;
                        heightChangeM?: number;
                        rpm?: number;
                        volumeMl?: number;
                    };
                    /** @description Fuel burned in level flight, at the temperature of the fuel [mL] */
                    volumeMl: number;
                })[];
                /**
                 * Format: uuid
                 * @description A set-up of the catalogue
                 */
                setupId?: string;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    allUpMassKg?: number;
                };
            }[];
            /**
             * Format: date
             * @description Local date of the flights
             */
            flownOn: string;
            /**
             * @description Interest in the result, declared by who submits
             * @enum {string}
             */
            interest: "none" | "dealer" | "maker" | "sponsored";
            /** @description Shown to nobody but its owner */
            note?: string;
            pilot: {
                /** @description Pilot with clothing [kg] */
                massKg: number;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    massKg?: number;
                };
            };
            site: {
                /** @description Height of the field above mean sea level [m] */
                elevationM: number;
                /** @description Name of the field; shown to nobody but its owner */
                name: string;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    elevationM?: number;
                };
            };
            /** @description A wing of the catalogue by its id alone, or one described here */
            wing: {
                /** @description Flat area [m²]; required without id */
                flatAreaM2?: number;
                /** @description Glide ratio; a catalogue figure is that of the bare wing and is reduced for pilot and cage */
                glideRatio?: number;
                /**
                 * @description Where the glide ratio comes from
                 * @enum {string}
                 */
                glideSource?: "measured" | "catalogue" | "estimated";
                /**
                 * Format: uuid
                 * @description A wing of the catalogue; then nothing else is given
                 */
                id?: string;
                /** @description All-up mass to which trimSpeedMps refers [kg] */
                trimAtAllUpMassKg?: number;
                /** @description Airspeed in level trimmed flight, in standard air at sea level [m/s] */
                trimSpeedMps?: number;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    flatAreaM2?: number;
                    glideRatio?: number;
                    trimAtAllUpMassKg?: number;
                    trimSpeedMps?: number;
                };
            };
        };
        NewPowerplant: {
            /** @description Swept volume [cm³] */
            displacementCc?: number;
            /** @enum {string} */
            drive: "twoStroke" | "fourStroke" | "electric";
            /** @constant */
            kind: "powerplant";
            /** @description Who makes it */
            maker: string;
            /** @description Mass with exhaust and reduction, dry [kg] */
            massKg?: number;
            /** @description What it is sold as */
            model: string;
            /** @description What it cost, and when */
            price?: {
                /** @description In units of the currency */
                amount: number;
                /**
                 * Format: date
                 * @description Day on which the price was seen
                 */
                asOf: string;
                /** @description ISO 4217 */
                currency: string;
            };
            /** @description Power stated by the maker [kW] */
            ratedPowerKw?: number;
            /** @description Engine speed at ratedPowerKw [1/min] */
            ratedRpm?: number;
            /** @description Engine revolutions per propeller revolution */
            reductionRatio?: number;
            /**
             * @description modified: exhaust, carburettor, timing or the like changed; unstated counts as asDelivered
             * @enum {string}
             */
            tune?: "asDelivered" | "modified";
        };
        NewPropeller: {
            /** @description Number of blades */
            blades?: number;
            /** @description Diameter of the disc [cm] */
            diameterCm: number;
            /** @constant */
            kind: "propeller";
            /** @description Who makes it */
            maker: string;
            /** @description Mass [kg] */
            massKg?: number;
            /** @description Such as carbon or wood */
            material?: string;
            /** @description What it is sold as */
            model: string;
            /** @description Pitch stated by the maker [cm] */
            pitchCm?: number;
            /** @description What it cost, and when */
            price?: {
                /** @description In units of the currency */
                amount: number;
                /**
                 * Format: date
                 * @description Day on which the price was seen
                 */
                asOf: string;
                /** @description ISO 4217 */
                currency: string;
            };
        };
        NewSetup: {
            /**
             * Format: uuid
             * @description A frame of the catalogue
             */
            frameId: string;
            /** @description What the three parts do not say; public */
            note?: string;
            /**
             * Format: uuid
             * @description A powerplant of the catalogue
             */
            powerplantId: string;
            /**
             * Format: uuid
             * @description A propeller of the catalogue
             */
            propellerId: string;
        };
        NewSubmission: {
            conditions: {
                /**
                 * @description The pilot's word for the vertical motion of the air
                 * @enum {string}
                 */
                airMotion: "calm" | "light" | "active" | "thermic";
                /** @description Altimeter setting QNH [hPa]; not QFE, not QFF */
                qnhHPa?: number;
                /** @description Relative humidity at the field [%] */
                relativeHumidityPct?: number;
                /** @description Pressure at the field itself [hPa], in place of qnhHPa */
                stationPressureHPa?: number;
                /** @description Air temperature at the field [°C] */
                temperatureC: number;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    qnhHPa?: number;
                    relativeHumidityPct?: number;
                    stationPressureHPa?: number;
                    temperatureC?: number;
                    windMps?: number;
                };
                /** @description Wind at the field [m/s] */
                windMps?: number;
            };
            entries: {
                /** @description Pilot, clothing, wing, frame, engine and fuel at the start of the run [kg] */
                allUpMassKg: number;
                /** @description Running time of the engine so far [h] */
                engineHours?: number;
                /**
                 * @description How allUpMassKg is known; absent: treated as estimated
                 * @enum {string}
                 */
                massSource?: "weighed" | "estimated";
                runs: ({
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Height gained at full throttle, as the source showed it [m] */
                    heightGainM: number;
                    /**
                     * @description How the height gain was read
                     * @enum {string}
                     */
                    heightSource: "barometric" | "barometricTemperatureCompensated" | "gnss" | "unknown";
                    /** @constant */
                    kind: "climb";
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Height above the field at the start [m] */
                    startHeightAboveSiteM: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        heightGainM?: number;
                        rpm?: number;
                        startHeightAboveSiteM?: number;
                    };
                } | {
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Temperature of the fuel when measured [°C] */
                    fuelTemperatureC?: number;
                    /** @description Mean height above the field [m] */
                    heightAboveSiteM: number;
                    /** @description Height at the end less height at the start [m] */
                    heightChangeM: number;
                    /** @constant */
                    kind: "fuelBurn";
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        fuelTemperatureC?: number;
                        heightAboveSiteM?: number;
                        heightChangeM?: number;
                        rpm?: number;
                        volumeMl?: number;
                    };
                    /** @description Fuel burned in level flight, at the temperature of the fuel [mL] */
                    volumeMl: number;
                })[];
                /**
                 * Format: uuid
                 * @description The set-up that was flown, from GET /v1/setups
                 */
                setupId: string;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    allUpMassKg?: number;
                };
            }[];
            /**
             * Format: date
             * @description Local date of the flights
             */
            flownOn: string;
            /**
             * @description Interest in the result, declared by who submits
             * @enum {string}
             */
            interest: "none" | "dealer" | "maker" | "sponsored";
            /** @description Shown to nobody but its owner */
            note?: string;
            pilot: {
                /** @description Pilot with clothing [kg] */
                massKg: number;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    massKg?: number;
                };
            };
            site: {
                /** @description Height of the field above mean sea level [m] */
                elevationM: number;
                /** @description Name of the field; shown to nobody but its owner */
                name: string;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    elevationM?: number;
                };
            };
            /** @description A wing of the catalogue by its id alone, or one described here */
            wing: {
                /** @description Flat area [m²]; required without id */
                flatAreaM2?: number;
                /** @description Glide ratio; a catalogue figure is that of the bare wing and is reduced for pilot and cage */
                glideRatio?: number;
                /**
                 * @description Where the glide ratio comes from
                 * @enum {string}
                 */
                glideSource?: "measured" | "catalogue" | "estimated";
                /**
                 * Format: uuid
                 * @description A wing of the catalogue; then nothing else is given
                 */
                id?: string;
                /** @description All-up mass to which trimSpeedMps refers [kg] */
                trimAtAllUpMassKg?: number;
                /** @description Airspeed in level trimmed flight, in standard air at sea level [m/s] */
                trimSpeedMps?: number;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    flatAreaM2?: number;
                    glideRatio?: number;
                    trimAtAllUpMassKg?: number;
                    trimSpeedMps?: number;
                };
            };
        };
        NewWing: {
            /** @description Flat area [m²] */
            flatAreaM2: number;
            /** @description Best glide ratio stated for the wing; that of the whole system is lower */
            glideRatio?: number;
            /** @constant */
            kind: "wing";
            /** @description Who makes it */
            maker: string;
            /** @description What it is sold as */
            model: string;
            /** @description What it cost, and when */
            price?: {
                /** @description In units of the currency */
                amount: number;
                /**
                 * Format: date
                 * @description Day on which the price was seen
                 */
                asOf: string;
                /** @description ISO 4217 */
                currency: string;
            };
            /** @description All-up mass that trimSpeedMps belongs to [kg] */
            trimAtAllUpMassKg?: number;
            /** @description Airspeed at trim in standard air at sea level [m/s], at trimAtAllUpMassKg */
            trimSpeedMps?: number;
        };
        Normalization: {
            entries: {
                /** @description Pilot, clothing, wing, frame, engine and fuel at the start of the run [kg] */
                allUpMassKg: number;
                /** @description Running time of the engine so far [h] */
                engineHours?: number;
                /** @description In place of setupId: what a set-up would say */
                equipment?: {
                    /** @enum {string} */
                    drive: "twoStroke" | "fourStroke" | "electric";
                    /** @description Diameter of the propeller [cm] */
                    propellerDiameterCm: number;
                };
                /**
                 * @description How allUpMassKg is known; absent: treated as estimated
                 * @enum {string}
                 */
                massSource?: "weighed" | "estimated";
                runs: ({
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Height gained at full throttle, as the source showed it [m] */
                    heightGainM: number;
                    /**
                     * @description How the height gain was read
                     * @enum {string}
                     */
                    heightSource: "barometric" | "barometricTemperatureCompensated" | "gnss" | "unknown";
                    /** @constant */
                    kind: "climb";
                    normalized: components["schemas"]["Normalized"];
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Height above the field at the start [m] */
                    startHeightAboveSiteM: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        heightGainM?: number;
                        rpm?: number;
                        startHeightAboveSiteM?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Temperature of the fuel when measured [°C] */
                    fuelTemperatureC?: number;
                    /** @description Mean height above the field [m] */
                    heightAboveSiteM: number;
                    /** @description Height at the end less height at the start [m] */
                    heightChangeM: number;
                    /** @constant */
                    kind: "fuelBurn";
                    normalized: components["schemas"]["Normalized"];
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        fuelTemperatureC?: number;
                        heightAboveSiteM?: number;
                        heightChangeM?: number;
                        rpm?: number;
                        volumeMl?: number;
                    };
                    /** @description Fuel burned in level flight, at the temperature of the fuel [mL] */
                    volumeMl: number;
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                })[];
                /**
                 * Format: uuid
                 * @description A set-up of the catalogue
                 */
                setupId?: string;
                /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                uncertainty?: {
                    allUpMassKg?: number;
                };
            }[];
            /** @description Version of the normalisation that gave these results */
            methodVersion: string;
            /** @description Reference state of these results */
            referenceId: string;
            /** @description Doubts that belong to no single run */
            warnings: {
                code: string;
                detail: string;
                /** @description JSON Pointer (RFC 6901) into the submission body */
                pointer: string;
            }[];
        };
        /** @description A run brought to the reference state */
        Normalized: {
            budget: {
                /** @description Fraction of the variance of the value; the shares sum to 1 */
                share: number;
                /** @description True where all runs of the session carry the same error, so that it cancels */
                sharedWithinSession: boolean;
                /** @description What varies */
                source: string;
                /** @description Its part, in the unit of the value, k = 1 */
                standardUncertainty: number;
            }[];
            /** @description Climb: climb rate at the reference state [m/s]; negative where it would sink */
            climbRateMps?: number;
            /** @description Fuel burn: flow in level flight at the reference state, volume at 15 °C [L/h] */
            fuelFlowLPerH?: number;
            /** @description Climb: useful induced power at full throttle, standard sea level [W] */
            inducedPowerW?: number;
            /** @enum {string} */
            metric: "climbRate" | "fuelFlow";
            /** @description Of `value`, in its unit, k = 1 */
            standardUncertainty: number;
            /** @description Climb: thrust in the climb at the reference state [N] */
            thrustN?: number;
            /** @enum {string} */
            unit: "m/s" | "L/h";
            /** @description The result at the reference state, in `unit` */
            value: number;
        };
        Powerplant: {
            /** Format: date-time */
            createdAt: string;
            /** @description Swept volume [cm³] */
            displacementCc?: number;
            /** @enum {string} */
            drive: "twoStroke" | "fourStroke" | "electric";
            /** Format: uuid */
            id: string;
            /** @constant */
            kind: "powerplant";
            /** @description Who makes it */
            maker: string;
            /** @description Mass with exhaust and reduction, dry [kg] */
            massKg?: number;
            /**
             * Format: uuid
             * @description The id asked for is of a duplicate that was merged; this is the component that remains, and the one shown
             */
            mergedIntoId?: string;
            /** @description What it is sold as */
            model: string;
            /** @description What it cost, and when */
            price?: {
                /** @description In units of the currency */
                amount: number;
                /**
                 * Format: date
                 * @description Day on which the price was seen
                 */
                asOf: string;
                /** @description ISO 4217 */
                currency: string;
            };
            /** @description Power stated by the maker [kW] */
            ratedPowerKw?: number;
            /** @description Engine speed at ratedPowerKw [1/min] */
            ratedRpm?: number;
            /** @description Engine revolutions per propeller revolution */
            reductionRatio?: number;
            /**
             * @description modified: exhaust, carburettor, timing or the like changed; unstated counts as asDelivered
             * @enum {string}
             */
            tune?: "asDelivered" | "modified";
        };
        Problem: {
            /** @description What went wrong this time, in one sentence */
            detail?: string;
            /** @description One entry per invalid field */
            errors?: {
                detail: string;
                /** @description JSON Pointer (RFC 6901) into the request; empty for the whole body */
                pointer: string;
            }[];
            /** @description Request id, the same as in the server log */
            instance: string;
            status: number;
            title: string;
            /** @description Stable identifier of the kind of problem */
            type: string;
        };
        Propeller: {
            /** @description Number of blades */
            blades?: number;
            /** Format: date-time */
            createdAt: string;
            /** @description Diameter of the disc [cm] */
            diameterCm: number;
            /** Format: uuid */
            id: string;
            /** @constant */
            kind: "propeller";
            /** @description Who makes it */
            maker: string;
            /** @description Mass [kg] */
            massKg?: number;
            /** @description Such as carbon or wood */
            material?: string;
            /**
             * Format: uuid
             * @description The id asked for is of a duplicate that was merged; this is the component that remains, and the one shown
             */
            mergedIntoId?: string;
            /** @description What it is sold as */
            model: string;
            /** @description Pitch stated by the maker [cm] */
            pitchCm?: number;
            /** @description What it cost, and when */
            price?: {
                /** @description In units of the currency */
                amount: number;
                /**
                 * Format: date
                 * @description Day on which the price was seen
                 */
                asOf: string;
                /** @description ISO 4217 */
                currency: string;
            };
        };
        PublicSubmission: {
            /** @description Rounded, so that they do not lead to a place, a day or a person */
            conditions: {
                /**
                 * @description The pilot's word for the vertical motion of the air
                 * @enum {string}
                 */
                airMotion: "calm" | "light" | "active" | "thermic";
                /** @description Height of the field, to the nearest 50 m */
                elevationM: number;
                /** @description To the nearest 10 % */
                relativeHumidityPct?: number;
                /** @description To the nearest degree [°C] */
                temperatureC: number;
                /** @description To the nearest 1 m/s */
                windMps?: number;
            };
            entries: {
                runs: {
                    /** @enum {string} */
                    kind: "climb" | "fuelBurn";
                    normalized: components["schemas"]["Normalized"];
                    /** @description Without the values they speak of */
                    warnings: {
                        code: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                }[];
                /** Format: uuid */
                setupId: string;
            }[];
            /** @description Month of the flights, YYYY-MM */
            flownIn: string;
            /** Format: uuid */
            id: string;
            /**
             * @description Interest in the result, declared by who submits
             * @enum {string}
             */
            interest: "none" | "dealer" | "maker" | "sponsored";
            /** @description Version of the normalisation that gave these results */
            methodVersion: string;
            /** @description Reference state of these results */
            referenceId: string;
            revision: number;
            /** @constant */
            view: "public";
        };
        Rank: {
            interval95: [
                number,
                number
            ];
            median: number;
            probabilityBest: number;
            /** @description Mean probability of being better than another one listed */
            pScore: number;
        };
        Ranking: {
            /** @enum {string} */
            better: "higher" | "lower";
            cautions: string[];
            conditions: components["schemas"]["Conditions"];
            /** @description A difference inside this margin is practically equal */
            equivalenceMarginPercent: number;
            fitId: string;
            metric: components["schemas"]["Metric"];
            /** @description Best first: the largest group that can be ranked */
            ranked: components["schemas"]["ComparedSetup"][];
            /** @description Setups reported unsafe: not recommended whatever they measure */
            setAside: components["schemas"]["ComparedSetup"][];
            unit: string;
            /** @description Measured, but not comparable with the ranked; the reason stands in refused */
            unranked: components["schemas"]["ComparedSetup"][];
        };
        Ready: {
            /** @constant */
            status: "ready";
        };
        Refused: {
            reason: string;
            /** @enum {string} */
            reasonCode: "noEvidence" | "oneSession" | "notConnected" | "doesNotClimb" | "outsideModel" | "notEstimable";
        };
        RoleChange: {
            /** @enum {string} */
            role: "pilot" | "dealer" | "researcher" | "moderator" | "admin";
        };
        Safety: {
            /** @description Newest first, lifted ones included */
            reports: components["schemas"]["SafetyReport"][];
            /**
             * @description The worst report that is not lifted. none: nothing was reported, which does not mean that the setup is safe
             * @enum {string}
             */
            state: "none" | "advisory" | "doNotFly";
        };
        SafetyReport: {
            /** Format: date-time */
            createdAt: string;
            /** Format: uuid */
            id: string;
            /** Format: date-time */
            liftedAt?: string;
            liftedReason?: string;
            reason: string;
            /** @enum {string} */
            state: "advisory" | "doNotFly";
        };
        SafetyState: {
            /** @description The reports behind the state, not lifted */
            advisories: string[];
            /** @enum {string} */
            state: "none" | "advisory" | "doNotFly";
        };
        Setup: {
            /** Format: date-time */
            createdAt: string;
            frame: {
                /** Format: uuid */
                id: string;
                maker: string;
                model: string;
            };
            /** Format: uuid */
            frameId: string;
            /** Format: uuid */
            id: string;
            /**
             * Format: uuid
             * @description The id asked for is of a duplicate that was merged; this is the setup that remains, and the one shown
             */
            mergedIntoId?: string;
            /** @description Powerplant, propeller and frame, for people to read */
            name: string;
            note?: string;
            powerplant: {
                /** @enum {string} */
                drive: "twoStroke" | "fourStroke" | "electric";
                /** Format: uuid */
                id: string;
                maker: string;
                model: string;
            };
            /** Format: uuid */
            powerplantId: string;
            propeller: {
                /** @description Diameter of the disc [cm] */
                diameterCm: number;
                /** Format: uuid */
                id: string;
                maker: string;
                model: string;
            };
            /** Format: uuid */
            propellerId: string;
            safety: components["schemas"]["Safety"];
        };
        SetupPage: {
            items: components["schemas"]["Setup"][];
            nextCursor: string | null;
        };
        TokenRequest: {
            /**
             * Format: email
             * @description E-mail address; upper and lower case are the same
             */
            email: string;
            /** @constant */
            grantType: "password";
            password: string;
        } | {
            /** @constant */
            grantType: "refresh";
            /** @description From the last answer of this call; each works once */
            refreshToken: string;
        };
        Tokens: {
            /** @description JWT, signed with EdDSA; for "Authorization: Bearer" */
            accessToken: string;
            /** @description Life of the access token [s] */
            expiresInS: number;
            /** @description Gives the next pair of tokens, once */
            refreshToken: string;
            /** @constant */
            tokenType: "Bearer";
        };
        Wing: {
            /** Format: date-time */
            createdAt: string;
            /** @description Flat area [m²] */
            flatAreaM2: number;
            /** @description Best glide ratio stated for the wing; that of the whole system is lower */
            glideRatio?: number;
            /** Format: uuid */
            id: string;
            /** @constant */
            kind: "wing";
            /** @description Who makes it */
            maker: string;
            /**
             * Format: uuid
             * @description The id asked for is of a duplicate that was merged; this is the component that remains, and the one shown
             */
            mergedIntoId?: string;
            /** @description What it is sold as */
            model: string;
            /** @description What it cost, and when */
            price?: {
                /** @description In units of the currency */
                amount: number;
                /**
                 * Format: date
                 * @description Day on which the price was seen
                 */
                asOf: string;
                /** @description ISO 4217 */
                currency: string;
            };
            /** @description All-up mass that trimSpeedMps belongs to [kg] */
            trimAtAllUpMassKg?: number;
            /** @description Airspeed at trim in standard air at sea level [m/s], at trimAtAllUpMassKg */
            trimSpeedMps?: number;
        };
    };
    responses: {
        /** @description The caller has this representation already (If-None-Match). */
        NotModified: {
            headers: {
                ETag: components["headers"]["ETag"];
                [name: string]: unknown;
            };
            content?: never;
        };
        /** @description The rate limit is used up. */
        TooManyRequests: {
            headers: {
                RateLimit: components["headers"]["RateLimit"];
                "RateLimit-Policy": components["headers"]["RateLimit-Policy"];
                "Retry-After": components["headers"]["Retry-After"];
                [name: string]: unknown;
            };
            content: {
                "application/problem+json": components["schemas"]["Problem"];
            };
        };
    };
    parameters: never;
    requestBodies: never;
    headers: {
        /** @description Strong validator of the answer. */
        ETag: string;
        /** @description What remains (r) of the quota, and the seconds (t) until it is whole again. */
        RateLimit: string;
        /** @description The quota q per window of w seconds. */
        "RateLimit-Policy": string;
        /** @description Seconds to wait. */
        "Retry-After": number;
    };
    pathItems: never;
}
export type $defs = Record<string, never>;
export interface operations {
    getKeySet: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["KeySet"];
                };
            };
            304: components["responses"]["NotModified"];
            429: components["responses"]["TooManyRequests"];
        };
    };
    getHealth: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Alive"];
                };
            };
            304: components["responses"]["NotModified"];
            429: components["responses"]["TooManyRequests"];
        };
    };
    getReadiness: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Ready"];
                };
            };
            304: components["responses"]["NotModified"];
            429: components["responses"]["TooManyRequests"];
            /** @description Service Unavailable */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    createAccount: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewAccount"];
            };
        };
        responses: {
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Account"];
                };
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Conflict */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    changeRole: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["RoleChange"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Account"];
                };
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Forbidden */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Conflict */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    listApiKeys: {
        parameters: {
            query?: {
                /** @description nextCursor of the page before */
                cursor?: string;
                /** @description Items per page */
                limit?: number;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ApiKeyPage"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    createApiKey: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewApiKey"];
            };
        };
        responses: {
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["CreatedApiKey"];
                };
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    deleteApiKey: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description No Content */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    getAtmosphere: {
        parameters: {
            query: {
                /** @description Height of the place above mean sea level [m] */
                elevationM: number;
                /** @description Altimeter setting QNH [hPa]; not QFE, not QFF */
                qnhHPa?: number;
                /** @description Relative humidity [%] */
                relativeHumidityPct?: number;
                /** @description Pressure at the place itself [hPa], in place of qnhHPa */
                stationPressureHPa?: number;
                /** @description Air temperature at the place [°C] */
                temperatureC: number;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Atmosphere"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unprocessable Entity */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    compareSetups: {
        parameters: {
            query: {
                /** @description All-up mass [kg]; default 120 */
                allUpMassKg?: number;
                /** @description Elevation above mean sea level [m]; the pressure is that of the standard atmosphere there */
                elevationM?: number;
                /** @description An earlier fit, to see an answer again as it was; default: the current one */
                fitId?: string;
                massClass?: components["schemas"]["MassClass"];
                metric: components["schemas"]["MetricInput"];
                /** @description Ids of 2 to 50 setups, separated by commas */
                setups: string;
                /** @description Air temperature [°C]; default: the standard atmosphere at that elevation */
                temperatureC?: number;
                /** @description A wing of the catalogue; default: the reference wing at its loading */
                wingId?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Comparison"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unprocessable Entity */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too Many Requests */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Service Unavailable */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listComponents: {
        parameters: {
            query?: {
                /** @description nextCursor of the page before */
                cursor?: string;
                /** @description Only components of this kind */
                kind?: "powerplant" | "propeller" | "frame" | "wing";
                /** @description Items per page */
                limit?: number;
                /** @description Words of makers and models, in any order and with a slip of the pen; sizes as 125 or 125 cm. Best match first */
                q?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ComponentPage"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    addComponent: {
        parameters: {
            query?: never;
            header?: {
                /** @description The same key and body replays the first answer (IETF httpapi draft) */
                "idempotency-key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewComponent"];
            };
        };
        responses: {
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Component"];
                };
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Conflict */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Payload Too Large */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unsupported Media Type */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unprocessable Entity */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    getComponent: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Component"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    readFit: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description Hash of the evidence and of the versions of method and model */
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Fit"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too Many Requests */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getOwnAccount: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Account"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    closeOwnAccount: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description No Content */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Conflict */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    exportOwnAccount: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["AccountExport"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    normalize: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewNormalization"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Normalization"];
                };
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Payload Too Large */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unsupported Media Type */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unprocessable Entity */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    rankSetups: {
        parameters: {
            query: {
                /** @description All-up mass [kg]; default 120 */
                allUpMassKg?: number;
                /** @description Elevation above mean sea level [m]; the pressure is that of the standard atmosphere there */
                elevationM?: number;
                /** @description An earlier fit, to see an answer again as it was; default: the current one */
                fitId?: string;
                /** @description Ranked setups to list */
                limit?: number;
                massClass?: components["schemas"]["MassClass"];
                metric: components["schemas"]["MetricInput"];
                /** @description Air temperature [°C]; default: the standard atmosphere at that elevation */
                temperatureC?: number;
                /** @description A wing of the catalogue; default: the reference wing at its loading */
                wingId?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Ranking"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unprocessable Entity */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too Many Requests */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Service Unavailable */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listSetups: {
        parameters: {
            query?: {
                /** @description nextCursor of the page before */
                cursor?: string;
                /** @description Only setups with this frame */
                frameId?: string;
                /** @description Items per page */
                limit?: number;
                /** @description Only setups with this powerplant */
                powerplantId?: string;
                /** @description Only setups with this propeller */
                propellerId?: string;
                /** @description Words of makers and models, in any order and with a slip of the pen; sizes as 125 or 125 cm. Best match first */
                q?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["SetupPage"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    addSetup: {
        parameters: {
            query?: never;
            header?: {
                /** @description The same key and body replays the first answer (IETF httpapi draft) */
                "idempotency-key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewSetup"];
            };
        };
        responses: {
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Setup"];
                };
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Conflict */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Payload Too Large */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unsupported Media Type */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unprocessable Entity */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    getSetup: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Setup"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    listSubmissions: {
        parameters: {
            query?: {
                /** @description nextCursor of the page before */
                cursor?: string;
                /** @description Submissions per page */
                limit?: number;
                /** @description The caller's own submissions, withdrawn ones too */
                mine?: "true";
                /** @description Submissions that flew this set-up, as everybody sees them */
                setupId?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        items: (components["schemas"]["FullSubmission"] | components["schemas"]["PublicSubmission"])[];
                        nextCursor: string | null;
                    };
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    createSubmission: {
        parameters: {
            query?: never;
            header?: {
                /** @description The same key and body replays the first answer (IETF httpapi draft) */
                "idempotency-key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewSubmission"];
            };
        };
        responses: {
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["FullSubmission"];
                };
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Forbidden */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Conflict */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Payload Too Large */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unsupported Media Type */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unprocessable Entity */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    getSubmission: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["FullSubmission"] | components["schemas"]["PublicSubmission"];
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Gone */
            410: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    withdrawSubmission: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description No Content */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": unknown;
                };
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Forbidden */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    listRevisions: {
        parameters: {
            query?: {
                /** @description nextCursor of the page before */
                cursor?: string;
                /** @description Submissions per page */
                limit?: number;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OK */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": {
                        items: components["schemas"]["FullSubmission"][];
                        nextCursor: string | null;
                    };
                };
            };
            304: components["responses"]["NotModified"];
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Forbidden */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    reviseSubmission: {
        parameters: {
            query?: never;
            header?: {
                /** @description The same key and body replays the first answer (IETF httpapi draft) */
                "idempotency-key"?: string;
            };
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewSubmission"];
            };
        };
        responses: {
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["FullSubmission"];
                };
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Forbidden */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Not Found */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Conflict */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Payload Too Large */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unsupported Media Type */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unprocessable Entity */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    createTokens: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["TokenRequest"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Tokens"];
                };
            };
            /** @description Bad Request */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
    deleteCurrentTokens: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description No Content */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description Unauthorized */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Forbidden */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            429: components["responses"]["TooManyRequests"];
        };
    };
}
