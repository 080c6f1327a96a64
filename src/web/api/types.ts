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
         * @description Holds from the next request of that account on, and stands in the audit trail. The only administrator keeps the role.
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
    "/v1/attributions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Take a difference apart by parts
         * @description How much of the difference of two setups is powerplant, propeller and frame, each with its interval, and what the parts do not explain. A line is refused where the flights never told that part from others.
         */
        get: operations["attributeDifference"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/audit-events": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List who did what to reports, set-ups, evidence and roles
         * @description Newest first. Events are only ever added. For moderators.
         */
        get: operations["listAuditEvents"];
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
    "/v1/comparisons.svg": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Draw a comparison
         * @description The same answer as a picture for reports and forums: SI units, no style sheet, no script.
         */
        get: operations["drawComparison"];
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
    "/v1/components/{id}/merges": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Merge a duplicate component into the one that remains
         * @description For moderators. The id of the duplicate keeps working and stands for the other one, with its flights and its reports; nothing is erased. It cannot be parted again, so it stays in the audit trail with its reason.
         */
        post: operations["mergeComponent"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/dataset-requests/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Follow the making of a release */
        get: operations["readDatasetRequest"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/datasets": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the releases of the dataset
         * @description Newest first. A release never changes.
         */
        get: operations["listDatasets"];
        put?: never;
        /**
         * Ask for a release
         * @description It is made in the background; the answer says where to follow it. Evidence that the latest release holds already makes no new one.
         */
        post: operations["createDataset"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/datasets/{release}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read the data package of a release
         * @description A Frictionless data package: every table with title, unit and constraints.
         */
        get: operations["readDataset"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/datasets/{release}/{file}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read a file of a release
         * @description Takes Range requests. The ETag is the SHA-256 of the file; CSV and JSON are compressed where the caller takes that.
         */
        get: operations["readDatasetFile"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/exports/runs": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Export the runs of this moment
         * @description The columns and the privacy of the file runs of a release, streamed from the database. Keys are drawn anew for every state of the evidence: the same state and question have the same bytes and ETag. The first export after a change waits while they are drawn. For what is to be cited, take a release.
         */
        get: operations["exportRuns"];
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
         * @description Variance components on the scale of the logarithm, counts and state of a fit. It never changes; siblings, notes and report are added to it once, when they are made after it.
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
    "/v1/import-requests/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Follow an import
         * @description For the account that sent it, for a week after it is done.
         */
        get: operations["readImportRequest"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/imports": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the own imports, and the releases taken in here
         * @description Newest first.
         */
        get: operations["listImports"];
        put?: never;
        /**
         * Take in a notebook, or a release of another server
         * @description All of it or nothing. A notebook (CSV in the columns of GET /v1/imports/columns, one row per run) becomes submissions of the caller, checked like posted ones. The files of a release (runs and systematic, and setups and components where its set-ups are not known here) count beside the submissions of this server; that needs the role moderator or admin. Faults are answered with row and column. A file that was taken in before is answered with what it made then. With the header Prefer: respond-async the answer comes at once and says where to follow a long file.
         */
        post: operations["importData"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/imports/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read one import
         * @description A notebook is for its owner and moderators; a release for everybody.
         */
        get: operations["readImport"];
        put?: never;
        post?: never;
        /**
         * Withdraw an import
         * @description Its submissions are withdrawn, or the runs of its release no longer count. Set-ups, components and warnings that came with it stay. Doing it again is harmless.
         */
        delete: operations["withdrawImport"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/imports/columns": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the columns of a notebook
         * @description One row of a notebook is one run. The columns follow from the schema of submissions; those that are not needed may be left out.
         */
        get: operations["listNotebookColumns"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/imports/template.csv": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read a blank notebook
         * @description The header alone; columns that are rarely known are left out.
         */
        get: operations["readNotebookTemplate"];
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
    "/v1/noise-exposure": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * How long a day may hold a noise level
         * @description By NIOSH 98-126: 85 dB(A) for 8 h, half the time for every 3 dB more. With durationMin also the daily dose. Hearing protection is not subtracted; local rules come first.
         */
        get: operations["getNoiseExposure"];
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
         * @description Takes the body of a submission. An entry may give its equipment in place of a set-up of the catalogue. With crossCheck=true every run also shows its uncertainty by Monte Carlo.
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
    "/v1/reports": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Report something wrong or unsafe
         * @description Queued for the moderators, who read its text. A set-up reported unsafe shows an advisory at once; whether it must not be flown a moderator decides.
         */
        post: operations["fileReport"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/reviews": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List reports to decide on
         * @description Reports of people, findings of measurements, and sessions that a fit found odd, oldest first. For moderators.
         */
        get: operations["listReviews"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/reviews/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Read one report with its findings and decisions */
        get: operations["getReview"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/reviews/{id}/decisions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Decide on a report
         * @description Takes effect at once and may be decided anew later. Decision, reason and who decided stay in the audit trail.
         */
        post: operations["decideReview"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/safety/tip-clearance": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * How far propeller tips move under load, and the clearance they need
         * @description From thrust, height of the thrust line and the rubber mounts; with inertia, speed and rate of turning also the gyroscopic part. Nothing is stored. An answer is advice on the figures given and clears nothing to fly.
         */
        post: operations["computeTipClearance"];
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
    "/v1/setups/{id}/merges": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Merge a duplicate setup into the one that remains
         * @description For moderators. The id of the duplicate keeps working and stands for the other one, with its flights and its reports; nothing is erased. It cannot be parted again, so it stays in the audit trail with its reason.
         */
        post: operations["mergeSetup"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/setups/{id}/predictions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Predict what a setup will do for you
         * @description Climb, level flight, endurance and range at your own mass, wing, field and tank, with intervals that hold what the flights leave open and what you do not know of yourself. Where the evidence does not support a number it is refused and says why.
         */
        get: operations["predictSetup"];
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
    "/v1/trade-offs": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Weigh climb against fuel
         * @description The setups that no other one beats in both climb rate and fuel flow at the conditions, each with the probability that this is so.
         */
        get: operations["weighTradeOff"];
        put?: never;
        post?: never;
        delete?: never;
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
            /** @description What the audit trail says that the account did */
            actions: {
                action: string;
                /** Format: date-time */
                at: string;
                detail: {
                    [key: string]: unknown;
                };
                /** Format: uuid */
                subjectId: string;
                subjectKind: string;
            }[];
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
            /** @description Files that the account brought in */
            imports: {
                /** Format: date-time */
                createdAt: string;
                /** @description Names, SHA-256 and sizes; what they held stands in submissions */
                files: unknown;
                /** Format: uuid */
                id: string;
                kind: string;
                withdrawnAt: string | null;
            }[];
            /** @description What the account reported */
            reports: {
                componentId: string | null;
                /** Format: date-time */
                createdAt: string;
                /** Format: uuid */
                id: string;
                kind: string;
                /** @description person, or measurement: found in a submission */
                origin: string;
                setupId: string | null;
                submissionId: string | null;
                text: string;
            }[];
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
            /** @description Full-throttle power of a naturally aspirated piston engine over that in the standard atmosphere at sea level; about 0.15 of its distance from 1 is uncertain. An electric drive limited in power has 1, one limited in speed the density ratio */
            fullThrottlePowerRatio: number;
            /** @description Where the standard atmosphere has this pressure [m, geopotential] */
            pressureAltitudeM: number;
            /** @description Speed of sound, of dry air at this temperature [m/s] */
            speedOfSoundMps: number;
            /** @description Pressure at the place itself [hPa] */
            stationPressureHPa: number;
        };
        Attribution: {
            /** @enum {string} */
            better: "higher" | "lower";
            cautions: string[];
            conditions: components["schemas"]["Conditions"];
            /** @enum {string} */
            evidence: "direct" | "connected" | "additive" | "betweenSessions" | "none";
            fitId: string;
            from: {
                name: string;
                /** Format: uuid */
                setupId: string;
            };
            /** @description Per cents multiply to the total: Π (1 + p/100); decibels add up. Empty where it is refused */
            lines: components["schemas"]["AttributionLine"][];
            metric: components["schemas"]["Metric"];
            otherFits: components["schemas"]["OtherFits"];
            partsAddUp: {
                /** @description Setups less independent parts; 0: not testable */
                degreesOfFreedom: number;
                /** @description Standard deviation of setups about the sum of their parts; 0: none detected */
                spreadPercent: number;
            } | null;
            to: {
                name: string;
                /** Format: uuid */
                setupId: string;
            };
            total: {
                degreesOfFreedom?: number;
                /** @description For sound levels: to less from [dB] */
                differenceDb?: number;
                /** @description 100 (to/from − 1) at the conditions */
                differencePercent?: number;
                interval95Db?: [
                    number,
                    number
                ];
                interval95Percent?: [
                    number,
                    number
                ];
                refused?: components["schemas"]["Refused"];
                /** @description Where results that do not fit the rest count less; null while otherFits is pending, absent where there is no such fit */
                robust?: {
                    agrees: boolean;
                    verdict: components["schemas"]["Verdict"];
                } | null;
                sentence: string;
                /** @description On to, as a, against from, as b */
                verdict: components["schemas"]["Verdict"];
                /** @description Without submissions by people with an interest; null while otherFits is pending, absent where there is no such fit */
                withoutInterested?: {
                    changes: boolean;
                    verdict: components["schemas"]["Verdict"];
                } | null;
            };
            unit: string;
        };
        /**
         * @description raises, lowers: the interval leaves out zero; open: it does not; nothing: the same part in both
         * @enum {string}
         */
        AttributionFinding: "raises" | "lowers" | "open" | "nothing" | "refused";
        AttributionLine: {
            degreesOfFreedom?: number;
            /** @description For sound levels: to less from [dB] */
            differenceDb?: number;
            /** @description 100 (to/from − 1) at the conditions */
            differencePercent?: number;
            finding: components["schemas"]["AttributionFinding"];
            from?: {
                /** Format: uuid */
                id: string;
                name: string;
            };
            interval95Db?: [
                number,
                number
            ];
            interval95Percent?: [
                number,
                number
            ];
            /** @description For together: parts that always changed at once, so that only their sum is known */
            kinds?: ("powerplant" | "propeller" | "frame")[];
            /** @enum {string} */
            part: "powerplant" | "propeller" | "frame" | "together" | "unexplained";
            /** @description Why this line has no number */
            refused?: {
                reason: string;
                /** @enum {string} */
                reasonCode: "neverSeparated" | "notTestable" | "throughPartsOnly";
            };
            /** @description Where results that do not fit the rest count less; null while otherFits is pending, absent where there is no such fit */
            robust?: {
                agrees: boolean;
                finding: components["schemas"]["AttributionFinding"];
            } | null;
            /** @description The same part in both: it brings exactly nothing */
            same: boolean;
            sentence: string;
            to?: {
                /** Format: uuid */
                id: string;
                name: string;
            };
            /** @description Without submissions by people with an interest; null while otherFits is pending, absent where there is no such fit */
            withoutInterested?: {
                changes: boolean;
                finding: components["schemas"]["AttributionFinding"];
            } | null;
        };
        AuditEvent: {
            action: string;
            /** @description Account that did it; null: the service itself */
            actorId: string | null;
            /** Format: date-time */
            at: string;
            detail: {
                [key: string]: unknown;
            };
            /** @description Rises with time */
            id: string;
            /** Format: uuid */
            subjectId: string;
            /** @enum {string} */
            subjectKind: "report" | "component" | "setup" | "submission" | "account" | "import";
        };
        AuditPage: {
            items: components["schemas"]["AuditEvent"][];
            nextCursor: string | null;
        };
        ComparedPair: {
            /** Format: uuid */
            a: string;
            /** Format: uuid */
            b: string;
            cost?: components["schemas"]["Cost"];
            degreesOfFreedom?: number;
            /** @description For sound levels: a less b [dB] */
            differenceDb?: number;
            /** @description 100 (a/b − 1) at the conditions */
            differencePercent?: number;
            equivalents?: components["schemas"]["Equivalents"];
            /** @enum {string} */
            evidence: "direct" | "connected" | "additive" | "betweenSessions" | "none";
            /** @description For notResolved: further sessions with both, three runs of each, that would settle it if the difference stays what it is, scatter that was not detected counting at the upper end of its interval; null: flights alone would not */
            flightsToResolve?: number | null;
            interval95Db?: [
                number,
                number
            ];
            interval95Percent?: [
                number,
                number
            ];
            nextSession95Db?: [
                number,
                number
            ];
            /** @description What a further session with both will show, whoever flies: 95 % of them */
            nextSession95Percent?: [
                number,
                number
            ];
            probabilityABetter?: number;
            /** @description Why no number is given */
            reason?: string;
            /** @enum {string} */
            reasonCode?: "noEvidence" | "oneSession" | "notConnected" | "doesNotClimb" | "outsideModel" | "notEstimable";
            /** @description Where results that do not fit the rest count less; null while otherFits is pending, absent where there is no such fit */
            robust?: {
                agrees: boolean;
                verdict: components["schemas"]["Verdict"];
            } | null;
            /** @description The verdict in plain words */
            sentence: string;
            /** @description What the interval is made of: shares of the variance, largest first */
            uncertainty?: {
                cause: string;
                share: number;
            }[];
            verdict: components["schemas"]["Verdict"];
            /** @description Without submissions by people with an interest; null while otherFits is pending, absent where there is no such fit */
            withoutInterested?: {
                changes: boolean;
                verdict: components["schemas"]["Verdict"];
            } | null;
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
            /** @description The same for sound levels [dB] */
            equivalenceMarginDb?: number;
            /** @description A difference inside this margin is practically equal */
            equivalenceMarginPercent?: number;
            fitId: string;
            metric: components["schemas"]["Metric"];
            otherFits: components["schemas"]["OtherFits"];
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
        /** @description What the better one costs; only where the prices of all parts that differ are known */
        Cost: {
            /** @description Day of the oldest price that counts */
            asOf: string;
            currency: string;
            /** @description Hours of level flight at the conditions until the fuel saved has paid for it */
            paybackH?: components["schemas"]["CostRate"];
            /** @description Money per newton of thrust */
            perNewton?: components["schemas"]["CostRate"];
            /** @description Money per 0.1 m/s of climb */
            perTenthMps?: components["schemas"]["CostRate"];
            /** @description a less b, over the parts that differ */
            priceDifference: number;
            /** @description The same in plain words */
            sentence: string;
        };
        CostRate: {
            interval95: [
                number,
                number
            ] | null;
            /**
             * @description costsNoMore: the better one is not dearer; unbounded: the gain may be next to nothing, so no finite interval holds what it costs
             * @enum {string}
             */
            noFigure?: "costsNoMore" | "unbounded";
            /** @description Null where there is no figure */
            value: number | null;
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
        /** @description Uncertainty of a result by linear propagation and by Monte Carlo (JCGM 101) */
        CrossCheck: {
            /** @description False where the two differ by more than 10 %, or draws failed: then trust the interval of the Monte Carlo */
            agrees: boolean;
            linear: {
                /** @description Ends of the interval, in `unit` */
                interval95: number[];
                /** @description As in `normalized` */
                standardUncertainty: number;
            };
            /** @description Null where nearly no draw had an answer */
            monteCarlo: {
                draws: number;
                /** @description Draws outside the physics, left out of the rest */
                failedDraws: number;
                /** @description Ends of the interval, in `unit` */
                interval95: number[];
                mean: number;
                standardUncertainty: number;
            } | null;
        };
        DataPackage: {
            id: string;
            licenses: ({
                name: string;
                path: string;
            } & {
                [key: string]: unknown;
            })[];
            name: string;
            profile: string;
            resources: ({
                hash: string;
                name: string;
                path: string;
            } & {
                [key: string]: unknown;
            })[];
            title: string;
            version: string;
        } & {
            [key: string]: unknown;
        };
        DatasetRequest: {
            /** Format: date-time */
            createdAt: string;
            finishedAt: string | null;
            /** Format: uuid */
            id: string;
            progress: number;
            /** @description What it led to */
            release: string | null;
            /**
             * @description unchanged: the latest release holds the same evidence already
             * @enum {string}
             */
            state: "queued" | "running" | "published" | "unchanged" | "failed";
            /** @description What is being done */
            step: string;
            /** @description The data package of that release */
            url: string | null;
        };
        /** @description What follows from the engine speed, where reduction ratio and propeller are known */
        Derived: {
            /** @description Static pull: ideal power of this thrust over the rated power in this air */
            figureOfMerit?: number;
            /** @description Mach number of the tips on their helix */
            helicalTipMach?: number;
            /** @description Propeller speed [1/min] */
            propellerRpm?: number;
            /** @description T/(ρ·n²·D⁴) of the thrust in this run */
            thrustCoefficient?: number;
            /** @description Speed of the tips in the plane of the propeller [m/s] */
            tipSpeedMps?: number;
        };
        Downweighted: {
            /** @description How many count less; the lists stop at 30 */
            counts: {
                runs: number;
                sessions: number;
                setupsOfSessions: number;
            };
            /** @description Setups that the weights move most, against the mean change of all */
            moved: {
                changePercent: number;
                /** Format: uuid */
                setupId: string;
            }[];
            runs: {
                pointer: string | null;
                /** Format: uuid */
                setupId: string;
                /** Format: uuid */
                submissionId: string;
                /** @description 1: counts in full, and is not listed */
                weight: number;
            }[];
            /** @description Lightest first */
            sessions: {
                /** Format: uuid */
                submissionId: string;
                /** @description 1: counts in full, and is not listed */
                weight: number;
            }[];
            setupsOfSessions: {
                /** Format: uuid */
                setupId: string;
                /** Format: uuid */
                submissionId: string;
                /** @description 1: counts in full, and is not listed */
                weight: number;
            }[];
        };
        /** @description The same difference in the quantities it is often confused with: the percents differ */
        Equivalents: {
            climbRatePercent?: number;
            climbThrustPercent?: number;
            electricPowerPercent?: number;
            /** @description Time from the same tank or battery */
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
            /** @description Of a robust fit: what counts less in it, and what that moves */
            downweighted: components["schemas"]["Downweighted"] | null;
            /** @description How far a result varies between pilots, days, setups on a day, and runs */
            heterogeneity: {
                cell: {
                    /** @description Rough; null where it was not estimated */
                    interval95Percent: [
                        number,
                        number
                    ] | null;
                    standardDeviationPercent: number;
                };
                pilot: {
                    /** @description Rough; null where it was not estimated */
                    interval95Percent: [
                        number,
                        number
                    ] | null;
                    standardDeviationPercent: number;
                };
                run: {
                    /** @description Rough; null where it was not estimated */
                    interval95Percent: [
                        number,
                        number
                    ] | null;
                    standardDeviationPercent: number;
                };
                session: {
                    /** @description Rough; null where it was not estimated */
                    interval95Percent: [
                        number,
                        number
                    ] | null;
                    standardDeviationPercent: number;
                };
            };
            /** @description Hash of the evidence and of the versions of method and model */
            id: string;
            /** @description Restricted; null without runs */
            logLikelihood: number | null;
            methodVersion: string;
            modelVersion: string;
            /** @description What could not be told apart, and what to beware of */
            notes: string[];
            otherFits: components["schemas"]["OtherFits"];
            /** @enum {string} */
            quantity: "inducedPower" | "fuelFlow" | "electricPower" | "staticThrust" | "soundAtEar" | "soundAtDistance";
            /** @description What stands out; null where no uncertainty is known, while otherFits is pending, and for robust fits: what stands out stands in the plain one, what became of it in downweighted */
            report: components["schemas"]["FitReport"] | null;
            /**
             * @description Variances are of the logarithm: 0.0004 is about 2 %
             * @constant
             */
            scale: "naturalLogarithm";
            /** @description Other fits of the same evidence; null: there is none, or it is not made yet */
            siblings: {
                robust: string | null;
                withoutInterested: string | null;
            };
            /** @description False where the runs do not show how much results scatter */
            standardErrorsKnown: boolean;
            /** @description Variances of the fit before, where this one started; null: it started from the data. The same evidence, versions and start give the same fit bit for bit */
            start: {
                /** @description The evidence asked for no other variances; null: it did, and they were searched */
                kept: {
                    /** @description Squared distance of the variances from their optimum, in standard errors */
                    decrement: number;
                    /** @description What the optimum would move any difference by at most, in its standard errors */
                    largestShift: number;
                } | null;
                variances: {
                    cell: number;
                    pilot: number;
                    run: number;
                    session: number;
                };
            } | null;
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
            /** @description What of the evidence it rests on, and how */
            variant: {
                excludeInterested: boolean;
                massClass: components["schemas"]["MassClass"] | null;
                /** @description Results that do not fit the rest count less */
                robust: boolean;
            };
        };
        FitReport: {
            consistency: {
                /** @description Whether sets of setups flown together agree with one another, sessions fixed */
                designs: {
                    degreesOfFreedom: number;
                    designs: number;
                    pValue: number;
                    statistic: number;
                } | null;
                /** @description Direct against indirect evidence, largest doubt first */
                splits: components["schemas"]["NodeSplit"][];
            };
            /** @description Setups within a session with all runs the same number: copied, or read too coarsely */
            identicalCells: number;
            influence: {
                flaggedSessions: number;
                /** @description Flagged ones first, then those that move a pair most */
                sessions: components["schemas"]["SessionInfluence"][];
                soleEvidenceSessions: number;
            };
            /** @description Whether advantages depend on the all-up mass; null: the flights cannot tell */
            mass: {
                degreesOfFreedom: number;
                pValue: number;
                setups: {
                    /** @description How its advantage changes where the all-up mass is 10 % more */
                    percentPerTenPercentMass: number;
                    /** @description Adjusted for the number of setups (Holm) */
                    pValue: number;
                    /** Format: uuid */
                    setupId: string;
                    standardErrorPercent: number;
                }[];
                statistic: number;
            } | null;
            outliers: {
                runs: components["schemas"]["OutlyingRun"][];
            };
            /** @description null: no run was repeated, or some declare no uncertainty */
            scatter: {
                degreesOfFreedom: number;
                /** @description Probability of so little scatter if that were right */
                pTooSmall: number;
                /** @description Variance of repeated runs over that declared for them */
                ratio: number;
            } | null;
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
        /**
         * @description onFront: at least 95 % sure; beaten: at most 5 %; leftOut: not known well enough
         * @enum {string}
         */
        FrontVerdict: "onFront" | "beaten" | "open" | "leftOut";
        FullSubmission: {
            /**
             * Format: uuid
             * @description Who submitted
             */
            accountId: string;
            /** @description What must not be flown comes first; then what to heed at runs of these kinds */
            cautions: string[];
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
                    /** @description Voltage of the battery after, of electric drives only [V] */
                    batteryEndV?: number;
                    /** @description Voltage of the battery before, of electric drives only [V] */
                    batteryStartV?: number;
                    derived?: components["schemas"]["Derived"];
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
                        batteryEndV?: number;
                        batteryStartV?: number;
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
                    derived?: components["schemas"]["Derived"];
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
                    /**
                     * @description measuredTank (when absent): a measured filling burned until the engine starves. refill: filled up again to the mark it started from
                     * @enum {string}
                     */
                    method?: "measuredTank" | "refill";
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
                } | {
                    /** @description Voltage of the battery after [V] */
                    batteryEndV: number;
                    /** @description Voltage of the battery before [V] */
                    batteryStartV: number;
                    derived?: components["schemas"]["Derived"];
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Energy out of the battery in level flight [Wh] */
                    energyWh: number;
                    /** @description Mean height above the field [m] */
                    heightAboveSiteM: number;
                    /** @description Height at the end less height at the start [m] */
                    heightChangeM: number;
                    /** @constant */
                    kind: "energyUse";
                    normalized: components["schemas"]["Normalized"];
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        batteryEndV?: number;
                        batteryStartV?: number;
                        durationS?: number;
                        energyWh?: number;
                        heightAboveSiteM?: number;
                        heightChangeM?: number;
                        rpm?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    /** @description Voltage of the battery after, of electric drives only [V] */
                    batteryEndV?: number;
                    /** @description Voltage of the battery before, of electric drives only [V] */
                    batteryStartV?: number;
                    derived?: components["schemas"]["Derived"];
                    /** @description Wind from ahead, along the propeller axis [m/s]; absent: calm is assumed, ±1 m/s */
                    headwindMps?: number;
                    /** @constant */
                    kind: "staticPull";
                    /** @description Angle between the line and the propeller axis [°]; absent: 0 */
                    lineAngleDeg?: number;
                    normalized: components["schemas"]["Normalized"];
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Pull in the line at full throttle [N] */
                    thrustN: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        batteryEndV?: number;
                        batteryStartV?: number;
                        headwindMps?: number;
                        lineAngleDeg?: number;
                        rpm?: number;
                        thrustN?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    /** @description A-weighted level of the background alone [dB]; absent: assumed to add nothing */
                    backgroundDbA?: number;
                    derived?: components["schemas"]["Derived"];
                    /** @description Seen from the hub, 0 straight ahead of the pilot, clockwise from above [°] */
                    directionDeg?: number;
                    /** @description From the propeller hub [m]; needed at a distance, not to be given at the ear */
                    distanceM?: number;
                    /**
                     * @description What read the level; absent: treated as a phone
                     * @enum {string}
                     */
                    instrument?: "class2" | "phone";
                    /** @constant */
                    kind: "soundLevel";
                    /** @description A-weighted level with engine and background [dB] */
                    levelDbA: number;
                    normalized: components["schemas"]["Normalized"];
                    /**
                     * @description Where it was measured; the two are never converted into one another
                     * @enum {string}
                     */
                    position: "pilotEar" | "distance";
                    /**
                     * @description Full throttle, or what level flight needs
                     * @enum {string}
                     */
                    power: "full" | "level";
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /**
                     * @description Ground between propeller and microphone
                     * @enum {string}
                     */
                    surface?: "grass" | "soil" | "hard" | "sand" | "snow";
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        backgroundDbA?: number;
                        distanceM?: number;
                        levelDbA?: number;
                        rpm?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    derived?: components["schemas"]["Derived"];
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Height lost at trim with the engine off, as the source showed it [m] */
                    heightLossM: number;
                    /**
                     * @description How the height gain was read
                     * @enum {string}
                     */
                    heightSource: "barometric" | "barometricTemperatureCompensated" | "gnss" | "unknown";
                    /** @constant */
                    kind: "sink";
                    normalized: components["schemas"]["Normalized"];
                    /** @description Height above the field at the start [m] */
                    startHeightAboveSiteM: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        heightLossM?: number;
                        startHeightAboveSiteM?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    /** @description False where flown faster or slower than trim: then it does not stand for the trim speed. Absent: true */
                    atTrim?: boolean;
                    derived?: components["schemas"]["Derived"];
                    /** @description Mean height above the field [m]; absent: 150 m is assumed, ±100 m */
                    heightAboveSiteM?: number;
                    /** @constant */
                    kind: "levelSpeed";
                    /** @description Level at one airspeed on three or more headings, well over 60° apart, each from each; best 120° */
                    legs: {
                        /** @description Speed over the ground, from a satellite receiver [m/s] */
                        groundSpeedMps: number;
                        /** @description Direction of the motion over the ground, clockwise from true north [°] */
                        trackDeg: number;
                        /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                        uncertainty?: {
                            groundSpeedMps?: number;
                            trackDeg?: number;
                        };
                    }[];
                    normalized: components["schemas"]["Normalized"];
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        heightAboveSiteM?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    /** @description Whether the propeller touched, or a trace of touching was seen: true puts the set-up in doNotFly at once */
                    contactSeen: boolean;
                    derived?: components["schemas"]["Derived"];
                    /** @constant */
                    kind: "tipClearance";
                    /** @description The same at the same place under load [mm]; 0 counts as contact */
                    loadedClearanceMm?: number;
                    /** @description Pull at the tip or thrust, whichever loaded it [N]; absent: taken as that of full throttle */
                    loadN?: number;
                    normalized: components["schemas"]["Normalized"];
                    /** @description Smallest gap between blade tip and frame, engine stopped, nothing pulling [mm] */
                    staticClearanceMm: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        loadedClearanceMm?: number;
                        loadN?: number;
                        staticClearanceMm?: number;
                    };
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
            /**
             * Format: uuid
             * @description Pseudonym of who flew, where that was not the account itself
             */
            guestPilotId?: string;
            /** Format: uuid */
            id: string;
            /**
             * Format: uuid
             * @description The import of a notebook that brought it in
             */
            importId?: string;
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
            /** @description A moderator has taken the revision shown out of the evidence; a corrected one counts again */
            setAside: boolean;
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
        /** @description A file that was taken in whole */
        Import: {
            /** @description What must not be flown comes first */
            cautions: string[];
            /** @description Components that came with a release */
            componentsAdded: string[];
            /** Format: date-time */
            createdAt: string;
            files: {
                /** @enum {string} */
                part: "notebook" | "runs" | "systematic" | "setups" | "components";
                /** @description Of the file as it came, hexadecimal */
                sha256: string;
                sizeBytes: number;
            }[];
            /** Format: uuid */
            id: string;
            /** @enum {string} */
            kind: "notebook" | "release";
            pilots: number;
            /** @description The import of a release that this one took the place of */
            replaces: string | null;
            /** @description Runs in the file */
            rows: number;
            /** @description Sessions that were taken in now */
            sessions: number;
            /** @description Sessions of a notebook that an earlier import brought in with the same values */
            sessionsKnown: number;
            /** @description Set-ups that came with a release */
            setupsAdded: string[];
            /** @description What a notebook became, one per session */
            submissions: {
                /** Format: uuid */
                id: string;
                /** @description First row of the session */
                row: number;
            }[];
            /** @description What is doubtful, and was taken */
            warnings: {
                code: string;
                column: string;
                detail: string;
                /** @description Row of the file; its header is row 1 */
                row: number;
            }[];
            /** @description From then on nothing of it counts, or another release took its place */
            withdrawnAt: string | null;
        };
        ImportPage: {
            items: components["schemas"]["Import"][];
            nextCursor: string | null;
        };
        /** @description A file that is being taken in, and how far it is */
        ImportRequest: {
            /** Format: date-time */
            createdAt: string;
            finishedAt: string | null;
            /** Format: uuid */
            id: string;
            /** @description What it came to */
            import: string | null;
            /** @description What a request that waits would have been answered */
            problem: components["schemas"]["Problem"] | null;
            progress: number;
            /**
             * @description refused: problem says why; failed: step says why. Nothing was imported then
             * @enum {string}
             */
            state: "running" | "done" | "refused" | "failed";
            /** @description What is being done now */
            step: string;
            url: string | null;
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
         * @description Class of all-up mass [kg]; conditions take 90, 110, 130, 155 or 210 kg for it
         * @enum {string}
         */
        MassClassInput: "under100" | "100to120" | "120to140" | "140to170" | "tandem";
        Merge: {
            /** Format: uuid */
            intoId: string;
            /**
             * Format: uuid
             * @description Keeps working, and stands for the other one from now on
             */
            mergedId: string;
            /** @description Setups that have become the same combination by this, and were merged too */
            setups: {
                /** Format: uuid */
                intoId: string;
                /**
                 * Format: uuid
                 * @description Keeps working, and stands for the other one from now on
                 */
                mergedId: string;
            }[];
        };
        /**
         * @description What is compared; higher is better for climbRate, climbThrust and staticThrust, lower for fuelFlow, electricPower and soundLevel
         * @enum {string}
         */
        Metric: "climbRate" | "climbThrust" | "fuelFlow" | "electricPower" | "staticThrust" | "soundLevel";
        /**
         * @description What is compared; higher is better for climbRate, climbThrust and staticThrust, lower for fuelFlow, electricPower and soundLevel
         * @enum {string}
         */
        MetricInput: "climbRate" | "climbThrust" | "fuelFlow" | "electricPower" | "staticThrust" | "soundLevel";
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
        NewDecision: {
            /**
             * @description doNotFly, advisory: that state for the set-up, or for every set-up with the component; lift: what was in force no longer is; dismiss: there was nothing in it, and what it put in force is lifted. Of an outlier: setAside: that revision is no evidence from now on, and a correction of it is again; keep: it is evidence, also where it was set aside before
             * @enum {string}
             */
            decision: "doNotFly" | "advisory" | "lift" | "dismiss" | "keep" | "setAside";
            /** @description Why; of doNotFly and advisory it is shown to everybody */
            reason: string;
        };
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
        NewMerge: {
            /**
             * Format: uuid
             * @description The record of the same thing, which remains
             */
            intoId: string;
            /** @description Stays in the audit trail */
            reason: string;
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
                    /** @description Rated shaft power [kW]; for the figure of merit of a static pull */
                    ratedPowerKw?: number;
                    /** @description Engine speed over propeller speed; for what follows from rpm */
                    reductionRatio?: number;
                };
                /**
                 * @description How allUpMassKg is known; absent: treated as estimated
                 * @enum {string}
                 */
                massSource?: "weighed" | "estimated";
                runs: ({
                    /** @description Voltage of the battery after, of electric drives only [V] */
                    batteryEndV?: number;
                    /** @description Voltage of the battery before, of electric drives only [V] */
                    batteryStartV?: number;
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
                        batteryEndV?: number;
                        batteryStartV?: number;
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
                    /**
                     * @description measuredTank (when absent): a measured filling burned until the engine starves. refill: filled up again to the mark it started from
                     * @enum {string}
                     */
                    method?: "measuredTank" | "refill";
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
                } | {
                    /** @description Voltage of the battery after [V] */
                    batteryEndV: number;
                    /** @description Voltage of the battery before [V] */
                    batteryStartV: number;
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Energy out of the battery in level flight [Wh] */
                    energyWh: number;
                    /** @description Mean height above the field [m] */
                    heightAboveSiteM: number;
                    /** @description Height at the end less height at the start [m] */
                    heightChangeM: number;
                    /** @constant */
                    kind: "energyUse";
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        batteryEndV?: number;
                        batteryStartV?: number;
                        durationS?: number;
                        energyWh?: number;
                        heightAboveSiteM?: number;
                        heightChangeM?: number;
                        rpm?: number;
                    };
                } | {
                    /** @description Voltage of the battery after, of electric drives only [V] */
                    batteryEndV?: number;
                    /** @description Voltage of the battery before, of electric drives only [V] */
                    batteryStartV?: number;
                    /** @description Wind from ahead, along the propeller axis [m/s]; absent: calm is assumed, ±1 m/s */
                    headwindMps?: number;
                    /** @constant */
                    kind: "staticPull";
                    /** @description Angle between the line and the propeller axis [°]; absent: 0 */
                    lineAngleDeg?: number;
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Pull in the line at full throttle [N] */
                    thrustN: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        batteryEndV?: number;
                        batteryStartV?: number;
                        headwindMps?: number;
                        lineAngleDeg?: number;
                        rpm?: number;
                        thrustN?: number;
                    };
                } | {
                    /** @description A-weighted level of the background alone [dB]; absent: assumed to add nothing */
                    backgroundDbA?: number;
                    /** @description Seen from the hub, 0 straight ahead of the pilot, clockwise from above [°] */
                    directionDeg?: number;
                    /** @description From the propeller hub [m]; needed at a distance, not to be given at the ear */
                    distanceM?: number;
                    /**
                     * @description What read the level; absent: treated as a phone
                     * @enum {string}
                     */
                    instrument?: "class2" | "phone";
                    /** @constant */
                    kind: "soundLevel";
                    /** @description A-weighted level with engine and background [dB] */
                    levelDbA: number;
                    /**
                     * @description Where it was measured; the two are never converted into one another
                     * @enum {string}
                     */
                    position: "pilotEar" | "distance";
                    /**
                     * @description Full throttle, or what level flight needs
                     * @enum {string}
                     */
                    power: "full" | "level";
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /**
                     * @description Ground between propeller and microphone
                     * @enum {string}
                     */
                    surface?: "grass" | "soil" | "hard" | "sand" | "snow";
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        backgroundDbA?: number;
                        distanceM?: number;
                        levelDbA?: number;
                        rpm?: number;
                    };
                } | {
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Height lost at trim with the engine off, as the source showed it [m] */
                    heightLossM: number;
                    /**
                     * @description How the height gain was read
                     * @enum {string}
                     */
                    heightSource: "barometric" | "barometricTemperatureCompensated" | "gnss" | "unknown";
                    /** @constant */
                    kind: "sink";
                    /** @description Height above the field at the start [m] */
                    startHeightAboveSiteM: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        heightLossM?: number;
                        startHeightAboveSiteM?: number;
                    };
                } | {
                    /** @description False where flown faster or slower than trim: then it does not stand for the trim speed. Absent: true */
                    atTrim?: boolean;
                    /** @description Mean height above the field [m]; absent: 150 m is assumed, ±100 m */
                    heightAboveSiteM?: number;
                    /** @constant */
                    kind: "levelSpeed";
                    /** @description Level at one airspeed on three or more headings, well over 60° apart, each from each; best 120° */
                    legs: {
                        /** @description Speed over the ground, from a satellite receiver [m/s] */
                        groundSpeedMps: number;
                        /** @description Direction of the motion over the ground, clockwise from true north [°] */
                        trackDeg: number;
                        /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                        uncertainty?: {
                            groundSpeedMps?: number;
                            trackDeg?: number;
                        };
                    }[];
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        heightAboveSiteM?: number;
                    };
                } | {
                    /** @description Whether the propeller touched, or a trace of touching was seen: true puts the set-up in doNotFly at once */
                    contactSeen: boolean;
                    /** @constant */
                    kind: "tipClearance";
                    /** @description The same at the same place under load [mm]; 0 counts as contact */
                    loadedClearanceMm?: number;
                    /** @description Pull at the tip or thrust, whichever loaded it [N]; absent: taken as that of full throttle */
                    loadN?: number;
                    /** @description Smallest gap between blade tip and frame, engine stopped, nothing pulling [mm] */
                    staticClearanceMm: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        loadedClearanceMm?: number;
                        loadN?: number;
                        staticClearanceMm?: number;
                    };
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
        NewReport: {
            /**
             * Format: uuid
             * @description The component it is about
             */
            componentId?: string;
            /**
             * @description unsafe: somebody may get hurt; wrong: a record is not true
             * @enum {string}
             */
            kind: "unsafe" | "wrong";
            /**
             * Format: uuid
             * @description The set-up it is about
             */
            setupId?: string;
            /**
             * Format: uuid
             * @description The submission it is about
             */
            submissionId?: string;
            /** @description What is wrong; read by moderators */
            text: string;
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
                    /** @description Voltage of the battery after, of electric drives only [V] */
                    batteryEndV?: number;
                    /** @description Voltage of the battery before, of electric drives only [V] */
                    batteryStartV?: number;
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
                        batteryEndV?: number;
                        batteryStartV?: number;
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
                    /**
                     * @description measuredTank (when absent): a measured filling burned until the engine starves. refill: filled up again to the mark it started from
                     * @enum {string}
                     */
                    method?: "measuredTank" | "refill";
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
                } | {
                    /** @description Voltage of the battery after [V] */
                    batteryEndV: number;
                    /** @description Voltage of the battery before [V] */
                    batteryStartV: number;
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Energy out of the battery in level flight [Wh] */
                    energyWh: number;
                    /** @description Mean height above the field [m] */
                    heightAboveSiteM: number;
                    /** @description Height at the end less height at the start [m] */
                    heightChangeM: number;
                    /** @constant */
                    kind: "energyUse";
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        batteryEndV?: number;
                        batteryStartV?: number;
                        durationS?: number;
                        energyWh?: number;
                        heightAboveSiteM?: number;
                        heightChangeM?: number;
                        rpm?: number;
                    };
                } | {
                    /** @description Voltage of the battery after, of electric drives only [V] */
                    batteryEndV?: number;
                    /** @description Voltage of the battery before, of electric drives only [V] */
                    batteryStartV?: number;
                    /** @description Wind from ahead, along the propeller axis [m/s]; absent: calm is assumed, ±1 m/s */
                    headwindMps?: number;
                    /** @constant */
                    kind: "staticPull";
                    /** @description Angle between the line and the propeller axis [°]; absent: 0 */
                    lineAngleDeg?: number;
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Pull in the line at full throttle [N] */
                    thrustN: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        batteryEndV?: number;
                        batteryStartV?: number;
                        headwindMps?: number;
                        lineAngleDeg?: number;
                        rpm?: number;
                        thrustN?: number;
                    };
                } | {
                    /** @description A-weighted level of the background alone [dB]; absent: assumed to add nothing */
                    backgroundDbA?: number;
                    /** @description Seen from the hub, 0 straight ahead of the pilot, clockwise from above [°] */
                    directionDeg?: number;
                    /** @description From the propeller hub [m]; needed at a distance, not to be given at the ear */
                    distanceM?: number;
                    /**
                     * @description What read the level; absent: treated as a phone
                     * @enum {string}
                     */
                    instrument?: "class2" | "phone";
                    /** @constant */
                    kind: "soundLevel";
                    /** @description A-weighted level with engine and background [dB] */
                    levelDbA: number;
                    /**
                     * @description Where it was measured; the two are never converted into one another
                     * @enum {string}
                     */
                    position: "pilotEar" | "distance";
                    /**
                     * @description Full throttle, or what level flight needs
                     * @enum {string}
                     */
                    power: "full" | "level";
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /**
                     * @description Ground between propeller and microphone
                     * @enum {string}
                     */
                    surface?: "grass" | "soil" | "hard" | "sand" | "snow";
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        backgroundDbA?: number;
                        distanceM?: number;
                        levelDbA?: number;
                        rpm?: number;
                    };
                } | {
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Height lost at trim with the engine off, as the source showed it [m] */
                    heightLossM: number;
                    /**
                     * @description How the height gain was read
                     * @enum {string}
                     */
                    heightSource: "barometric" | "barometricTemperatureCompensated" | "gnss" | "unknown";
                    /** @constant */
                    kind: "sink";
                    /** @description Height above the field at the start [m] */
                    startHeightAboveSiteM: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        heightLossM?: number;
                        startHeightAboveSiteM?: number;
                    };
                } | {
                    /** @description False where flown faster or slower than trim: then it does not stand for the trim speed. Absent: true */
                    atTrim?: boolean;
                    /** @description Mean height above the field [m]; absent: 150 m is assumed, ±100 m */
                    heightAboveSiteM?: number;
                    /** @constant */
                    kind: "levelSpeed";
                    /** @description Level at one airspeed on three or more headings, well over 60° apart, each from each; best 120° */
                    legs: {
                        /** @description Speed over the ground, from a satellite receiver [m/s] */
                        groundSpeedMps: number;
                        /** @description Direction of the motion over the ground, clockwise from true north [°] */
                        trackDeg: number;
                        /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                        uncertainty?: {
                            groundSpeedMps?: number;
                            trackDeg?: number;
                        };
                    }[];
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        heightAboveSiteM?: number;
                    };
                } | {
                    /** @description Whether the propeller touched, or a trace of touching was seen: true puts the set-up in doNotFly at once */
                    contactSeen: boolean;
                    /** @constant */
                    kind: "tipClearance";
                    /** @description The same at the same place under load [mm]; 0 counts as contact */
                    loadedClearanceMm?: number;
                    /** @description Pull at the tip or thrust, whichever loaded it [N]; absent: taken as that of full throttle */
                    loadN?: number;
                    /** @description Smallest gap between blade tip and frame, engine stopped, nothing pulling [mm] */
                    staticClearanceMm: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        loadedClearanceMm?: number;
                        loadN?: number;
                        staticClearanceMm?: number;
                    };
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
        NodeSplit: {
            /** Format: uuid */
            a: string;
            /** Format: uuid */
            b: string;
            /** @description What sessions with both say of a against b, beyond what all others say */
            differencePercent: number;
            /** @description Adjusted for the number of pairs (Holm) */
            pValue: number;
            /** @description Sessions that hold both */
            sessions: number;
            standardErrorPercent: number;
        };
        NoiseExposure: {
            assumptions: string[];
            cautions: string[];
            criterion: {
                exchangeRateDb: number;
                levelDbA: number;
                name: string;
                referenceDurationMin: number;
            };
            /** @description Daily dose of the stated time [%]; 100 is what a day may hold */
            dosePct?: number;
            levelDbA: number;
            /** @description The same in hours, minutes and seconds */
            permissibleExposure: string;
            /** @description Time a day may hold this level, if the rest of the day is quiet [min] */
            permissibleExposureMin: number;
        };
        Normalization: {
            /** @description What must not be flown comes first; then what to heed at runs of these kinds */
            cautions: string[];
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
                    /** @description Rated shaft power [kW]; for the figure of merit of a static pull */
                    ratedPowerKw?: number;
                    /** @description Engine speed over propeller speed; for what follows from rpm */
                    reductionRatio?: number;
                };
                /**
                 * @description How allUpMassKg is known; absent: treated as estimated
                 * @enum {string}
                 */
                massSource?: "weighed" | "estimated";
                runs: ({
                    /** @description Voltage of the battery after, of electric drives only [V] */
                    batteryEndV?: number;
                    /** @description Voltage of the battery before, of electric drives only [V] */
                    batteryStartV?: number;
                    crossCheck?: components["schemas"]["CrossCheck"] | null;
                    derived?: components["schemas"]["Derived"];
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
                        batteryEndV?: number;
                        batteryStartV?: number;
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
                    crossCheck?: components["schemas"]["CrossCheck"] | null;
                    derived?: components["schemas"]["Derived"];
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
                    /**
                     * @description measuredTank (when absent): a measured filling burned until the engine starves. refill: filled up again to the mark it started from
                     * @enum {string}
                     */
                    method?: "measuredTank" | "refill";
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
                } | {
                    /** @description Voltage of the battery after [V] */
                    batteryEndV: number;
                    /** @description Voltage of the battery before [V] */
                    batteryStartV: number;
                    crossCheck?: components["schemas"]["CrossCheck"] | null;
                    derived?: components["schemas"]["Derived"];
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Energy out of the battery in level flight [Wh] */
                    energyWh: number;
                    /** @description Mean height above the field [m] */
                    heightAboveSiteM: number;
                    /** @description Height at the end less height at the start [m] */
                    heightChangeM: number;
                    /** @constant */
                    kind: "energyUse";
                    normalized: components["schemas"]["Normalized"];
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        batteryEndV?: number;
                        batteryStartV?: number;
                        durationS?: number;
                        energyWh?: number;
                        heightAboveSiteM?: number;
                        heightChangeM?: number;
                        rpm?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    /** @description Voltage of the battery after, of electric drives only [V] */
                    batteryEndV?: number;
                    /** @description Voltage of the battery before, of electric drives only [V] */
                    batteryStartV?: number;
                    crossCheck?: components["schemas"]["CrossCheck"] | null;
                    derived?: components["schemas"]["Derived"];
                    /** @description Wind from ahead, along the propeller axis [m/s]; absent: calm is assumed, ±1 m/s */
                    headwindMps?: number;
                    /** @constant */
                    kind: "staticPull";
                    /** @description Angle between the line and the propeller axis [°]; absent: 0 */
                    lineAngleDeg?: number;
                    normalized: components["schemas"]["Normalized"];
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /** @description Pull in the line at full throttle [N] */
                    thrustN: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        batteryEndV?: number;
                        batteryStartV?: number;
                        headwindMps?: number;
                        lineAngleDeg?: number;
                        rpm?: number;
                        thrustN?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    /** @description A-weighted level of the background alone [dB]; absent: assumed to add nothing */
                    backgroundDbA?: number;
                    crossCheck?: components["schemas"]["CrossCheck"] | null;
                    derived?: components["schemas"]["Derived"];
                    /** @description Seen from the hub, 0 straight ahead of the pilot, clockwise from above [°] */
                    directionDeg?: number;
                    /** @description From the propeller hub [m]; needed at a distance, not to be given at the ear */
                    distanceM?: number;
                    /**
                     * @description What read the level; absent: treated as a phone
                     * @enum {string}
                     */
                    instrument?: "class2" | "phone";
                    /** @constant */
                    kind: "soundLevel";
                    /** @description A-weighted level with engine and background [dB] */
                    levelDbA: number;
                    normalized: components["schemas"]["Normalized"];
                    /**
                     * @description Where it was measured; the two are never converted into one another
                     * @enum {string}
                     */
                    position: "pilotEar" | "distance";
                    /**
                     * @description Full throttle, or what level flight needs
                     * @enum {string}
                     */
                    power: "full" | "level";
                    /** @description Engine speed during the run [1/min] */
                    rpm?: number;
                    /**
                     * @description Ground between propeller and microphone
                     * @enum {string}
                     */
                    surface?: "grass" | "soil" | "hard" | "sand" | "snow";
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        backgroundDbA?: number;
                        distanceM?: number;
                        levelDbA?: number;
                        rpm?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    crossCheck?: components["schemas"]["CrossCheck"] | null;
                    derived?: components["schemas"]["Derived"];
                    /** @description Time from start to end of the run [s] */
                    durationS: number;
                    /** @description Height lost at trim with the engine off, as the source showed it [m] */
                    heightLossM: number;
                    /**
                     * @description How the height gain was read
                     * @enum {string}
                     */
                    heightSource: "barometric" | "barometricTemperatureCompensated" | "gnss" | "unknown";
                    /** @constant */
                    kind: "sink";
                    normalized: components["schemas"]["Normalized"];
                    /** @description Height above the field at the start [m] */
                    startHeightAboveSiteM: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        durationS?: number;
                        heightLossM?: number;
                        startHeightAboveSiteM?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    /** @description False where flown faster or slower than trim: then it does not stand for the trim speed. Absent: true */
                    atTrim?: boolean;
                    crossCheck?: components["schemas"]["CrossCheck"] | null;
                    derived?: components["schemas"]["Derived"];
                    /** @description Mean height above the field [m]; absent: 150 m is assumed, ±100 m */
                    heightAboveSiteM?: number;
                    /** @constant */
                    kind: "levelSpeed";
                    /** @description Level at one airspeed on three or more headings, well over 60° apart, each from each; best 120° */
                    legs: {
                        /** @description Speed over the ground, from a satellite receiver [m/s] */
                        groundSpeedMps: number;
                        /** @description Direction of the motion over the ground, clockwise from true north [°] */
                        trackDeg: number;
                        /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                        uncertainty?: {
                            groundSpeedMps?: number;
                            trackDeg?: number;
                        };
                    }[];
                    normalized: components["schemas"]["Normalized"];
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        heightAboveSiteM?: number;
                    };
                    warnings: {
                        code: string;
                        detail: string;
                        /** @description JSON Pointer (RFC 6901) into the submission body */
                        pointer: string;
                    }[];
                } | {
                    /** @description Whether the propeller touched, or a trace of touching was seen: true puts the set-up in doNotFly at once */
                    contactSeen: boolean;
                    crossCheck?: components["schemas"]["CrossCheck"] | null;
                    derived?: components["schemas"]["Derived"];
                    /** @constant */
                    kind: "tipClearance";
                    /** @description The same at the same place under load [mm]; 0 counts as contact */
                    loadedClearanceMm?: number;
                    /** @description Pull at the tip or thrust, whichever loaded it [N]; absent: taken as that of full throttle */
                    loadN?: number;
                    normalized: components["schemas"]["Normalized"];
                    /** @description Smallest gap between blade tip and frame, engine stopped, nothing pulling [mm] */
                    staticClearanceMm: number;
                    /** @description Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold */
                    uncertainty?: {
                        loadedClearanceMm?: number;
                        loadN?: number;
                        staticClearanceMm?: number;
                    };
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
            /** @description Tip clearance: clearance under load advised for this movement: 10 mm and half of it [mm] */
            advisedLoadedClearanceMm?: number;
            /** @description Level speed: whether it stands for the trim speed of the session */
            atTrim?: boolean;
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
            /** @description Tip clearance: whether the propeller touched */
            contactSeen?: boolean;
            /** @description Sound level at a distance: where it holds [m]; 20, or where it was measured if that is too near for the distance rule */
            distanceM?: number;
            /** @description Energy use: electric power in level flight at the reference state [W] */
            electricPowerW?: number;
            /** @description Fuel burn: flow in level flight at the reference state, volume at 15 °C [L/h] */
            fuelFlowLPerH?: number;
            /** @description Sink: glide ratio of wing, pilot and frame as flown */
            glideRatio?: number;
            /** @description Sink: of `glideRatio`, k = 1 */
            glideRatioStandardUncertainty?: number;
            /** @description Climb: useful induced power at full throttle, standard sea level [W] */
            inducedPowerW?: number;
            /** @enum {string} */
            metric: "climbRate" | "fuelFlow" | "staticThrust" | "soundLevel" | "electricPower" | "sinkRate" | "levelSpeed" | "tipClearance";
            /** @description Tip clearance: movement towards the cage under load [mm] */
            movementMm?: number;
            /**
             * @description Sound level: where it holds; the two are never converted into one another
             * @enum {string}
             */
            position?: "pilotEar" | "distance";
            /**
             * @description Sound level: what the engine gave
             * @enum {string}
             */
            power?: "full" | "level";
            /** @description Of `value`, in its unit, k = 1 */
            standardUncertainty: number;
            /** @description Climb: thrust in the climb at the reference state. Static pull: static thrust at full throttle, standard sea level [N] */
            thrustN?: number;
            /** @description Level speed: as flown [m/s]; to its owner only */
            trueAirspeedMps?: number;
            /** @description Tip clearance: whether `value` was measured under load; else at rest */
            underLoad?: boolean;
            /** @enum {string} */
            unit: "m/s" | "L/h" | "N" | "dB" | "W" | "mm";
            /** @description The result at the reference state, in `unit` */
            value: number;
            /** @description Level speed: where the wind comes from, clockwise from north [°]; to its owner only */
            windFromDeg?: number;
            /** @description Level speed: wind at the height of the run [m/s]; to its owner only */
            windMps?: number;
        };
        /** @description Columns of a notebook, out of the schema of submissions */
        NotebookColumns: {
            items: {
                /** @description Is in the template */
                common: boolean;
                description: string;
                /** @description Kinds of run that have it; empty: all */
                kinds: string[];
                /**
                 * @description session and entry (a set-up within a session): one value for all its rows, given at least once
                 * @enum {string}
                 */
                level: "label" | "session" | "entry" | "run";
                name: string;
                needed: boolean;
                /** @enum {string} */
                type: "text" | "number" | "boolean" | "day";
                unit: string | null;
                /** @description Words it takes; null: any */
                values: string[] | null;
            }[];
        };
        NotPredicted: {
            reason: string;
            /** @enum {string} */
            reasonCode: "noEvidence" | "oneSession" | "notConnected" | "doesNotClimb" | "outsideModel" | "notEstimable" | "electricDrive" | "combustionDrive" | "tankNotGiven" | "reserveExceedsTank" | "ratedRpmUnknown" | "reductionUnknown";
        };
        /**
         * @description Whether the other fits of the same evidence are made: without people with an interest, and with misfits counting less. They follow a fit within moments; until then its answers say pending, carry another ETag, and lack what follows from them. Once made, an answer with that fitId stays as it is. A fit that a newer one replaced at once may stay pending
         * @enum {string}
         */
        OtherFits: "made" | "pending";
        OutlyingRun: {
            /** @description Place of the run in its submission (RFC 6901) */
            pointer: string | null;
            /** @description Adjusted for the number of runs (Holm) */
            pValue: number;
            /** @description In standard deviations; above zero: higher than expected */
            residual: number;
            /** Format: uuid */
            setupId: string;
            /** Format: uuid */
            submissionId: string;
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
        PredictedQuantity: {
            /** @description What the uncertainty is made of, largest first; shares of the variance below 0.001 left out */
            budget: {
                share: number;
                source: string;
                standardUncertainty: number;
            }[];
            /** @description Of the mean over pilots and evenings */
            interval95: [
                number,
                number
            ] | null;
            /** @description Of what one pilot sees on one evening; null where no flights stand behind the quantity */
            interval95NextEvening: [
                number,
                number
            ] | null;
            /** @description Why no value is given */
            refused?: components["schemas"]["NotPredicted"];
            /** @description Where results that do not fit the rest count less; null while otherFits is pending, absent where there is no such fit */
            robust?: {
                agrees: boolean;
                /** @description Another finding where it lies outside interval95, or where only one of the two is refused */
                value: number | null;
            } | null;
            /** @description k = 1, with your own unknowns */
            standardUncertainty: number | null;
            unit: string;
            /** @description Null where refused */
            value: number | null;
            /** @description Without submissions by people with an interest; null while otherFits is pending, absent where there is no such fit */
            withoutInterested?: {
                changes: boolean;
                /** @description Another finding where it lies outside interval95, or where only one of the two is refused */
                value: number | null;
            } | null;
        };
        Prediction: {
            cautions: string[];
            /** @description As asked for and filled in, each value with its standard uncertainty */
            conditions: {
                airDensityKgPerM3: number;
                allUpMassKg: {
                    standardUncertainty: number;
                    value: number;
                };
                /** @description What was taken for granted because the query left it open */
                assumed: string[];
                elevationM: number;
                relativeHumidityPct: {
                    standardUncertainty: number;
                    value: number;
                };
                stationPressureHPa: {
                    standardUncertainty: number;
                    value: number;
                };
                tank: {
                    reserveL?: number;
                    reserveMin?: number;
                    tankL: {
                        standardUncertainty: number;
                        value: number;
                    };
                } | null;
                temperatureC: {
                    standardUncertainty: number;
                    value: number;
                };
                wing: {
                    flatAreaM2: number;
                    /** @description Of the system: wing, pilot and running frame */
                    glideRatio: {
                        standardUncertainty: number;
                        value: number;
                    };
                    id: string | null;
                    trimAtAllUpMassKg: {
                        standardUncertainty: number;
                        value: number;
                    };
                    /** @description Level, at the all-up mass beside it, sea level */
                    trimSpeedMps: {
                        standardUncertainty: number;
                        value: number;
                    };
                };
            };
            evidence: {
                electricPower: components["schemas"]["EvidenceCount"];
                fuelFlow: components["schemas"]["EvidenceCount"];
                inducedPower: components["schemas"]["EvidenceCount"];
                staticThrust: components["schemas"]["EvidenceCount"];
            };
            /** @description What climb, fuel, electric power and static thrust rest on; name all in fitId to have this answer again */
            fits: {
                electricPower: string;
                fuelFlow: string;
                inducedPower: string;
                staticThrust: string;
            };
            name: string;
            otherFits: components["schemas"]["OtherFits"];
            predictions: {
                /** @description Level airspeed at trim, at the start */
                airspeed: components["schemas"]["PredictedQuantity"];
                /** @description Angle of that climb through the air */
                climbAngle: components["schemas"]["PredictedQuantity"];
                /** @description Full-throttle climb */
                climbRate: components["schemas"]["PredictedQuantity"];
                /** @description Thrust in that climb, along the path */
                climbThrust: components["schemas"]["PredictedQuantity"];
                /** @description Where the standard atmosphere has the density of the field */
                densityAltitude: components["schemas"]["PredictedQuantity"];
                /** @description Out of the battery in level flight at the start */
                electricPower: components["schemas"]["PredictedQuantity"];
                /** @description Level flight on the tank less its reserve, the wing getting lighter */
                endurance: components["schemas"]["PredictedQuantity"];
                /** @description To be expected at full throttle if the propeller suits the rated speed; for plausibility only */
                engineRpm: components["schemas"]["PredictedQuantity"];
                /** @description In level flight at the start, volume at 15 °C */
                fuelFlow: components["schemas"]["PredictedQuantity"];
                /** @description Full-throttle power over that at sea level in standard air */
                fullThrottlePowerRatio: components["schemas"]["PredictedQuantity"];
                /** @description Through still air at the start, volume at 15 °C */
                litresPer100Km: components["schemas"]["PredictedQuantity"];
                /** @description The same behind the reduction */
                propellerRpm: components["schemas"]["PredictedQuantity"];
                /** @description Through still air on the tank less its reserve */
                range: components["schemas"]["PredictedQuantity"];
                /** @description At full power, standing still */
                staticThrust: components["schemas"]["PredictedQuantity"];
                /** @description Mach number of the propeller tips at that speed */
                tipMach: components["schemas"]["PredictedQuantity"];
            };
            safety: components["schemas"]["SafetyState"];
            /** Format: uuid */
            setupId: string;
        };
        Problem: {
            /** @description What went wrong this time, in one sentence */
            detail?: string;
            /** @description One entry per invalid field */
            errors?: {
                /** @description Column of a file */
                column?: string;
                detail: string;
                /** @description Part of the request that held the file, where there are several */
                file?: string;
                /** @description JSON Pointer (RFC 6901) into the request; empty for the whole body */
                pointer: string;
                /** @description Row of a file; its header is row 1 */
                row?: number;
            }[];
            /**
             * Format: uuid
             * @description Of a conflict with something the catalogue has already: the id of that record
             */
            existingId?: string;
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
            /** @description What must not be flown comes first; then what to heed at runs of these kinds */
            cautions: string[];
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
                    derived?: components["schemas"]["Derived"];
                    /** @enum {string} */
                    kind: "climb" | "fuelBurn" | "energyUse" | "staticPull" | "soundLevel" | "sink" | "levelSpeed" | "tipClearance";
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
            /** @description A moderator has taken the revision shown out of the evidence; a corrected one counts again */
            setAside: boolean;
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
        RankedSetup: {
            /** @description Verdict on it, as a, against the setup that leads, as b; null for that one */
            againstFirst: components["schemas"]["Verdict"] | null;
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
            /** @description Where results that do not fit the rest count less; null while otherFits is pending, absent where there is no such fit */
            robust?: {
                againstFirst: components["schemas"]["Verdict"] | null;
                agrees: boolean;
                /** @description Place by estimate; null: not linked with the others */
                position: number | null;
            } | null;
            safety: components["schemas"]["SafetyState"];
            /** Format: uuid */
            setupId: string;
            standardUncertainty: number | null;
            /** @description At the conditions; null where refused */
            value: number | null;
            /** @description Without submissions by people with an interest; null while otherFits is pending, absent where there is no such fit */
            withoutInterested?: {
                againstFirst: components["schemas"]["Verdict"] | null;
                changes: boolean;
                /** @description Place by estimate; null: not linked with the others */
                position: number | null;
            } | null;
        };
        Ranking: {
            /** @enum {string} */
            better: "higher" | "lower";
            cautions: string[];
            conditions: components["schemas"]["Conditions"];
            /** @description The same for sound levels [dB] */
            equivalenceMarginDb?: number;
            /** @description A difference inside this margin is practically equal */
            equivalenceMarginPercent?: number;
            fitId: string;
            metric: components["schemas"]["Metric"];
            otherFits: components["schemas"]["OtherFits"];
            /** @description Best first: the largest group that can be ranked */
            ranked: components["schemas"]["RankedSetup"][];
            /** @description Where results that do not fit the rest count less; null while otherFits is pending, absent where there is no such fit */
            robust?: {
                agrees: boolean;
                /** @description The setup that leads */
                first: string | null;
                /** @description Ranked setups whose verdict against the first one differs */
                otherwise: string[];
            } | null;
            /** @description Who leads, how sure that is, and what it hangs on */
            sentence: string;
            /** @description Setups reported unsafe: not recommended whatever they measure */
            setAside: components["schemas"]["ComparedSetup"][];
            unit: string;
            /** @description Measured, but not comparable with the ranked; the reason stands in refused */
            unranked: components["schemas"]["ComparedSetup"][];
            /** @description Without submissions by people with an interest; null while otherFits is pending, absent where there is no such fit */
            withoutInterested?: {
                changes: boolean;
                /** @description The setup that leads */
                first: string | null;
                /** @description Ranked setups whose verdict against the first one differs */
                otherwise: string[];
            } | null;
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
        Release: {
            /** @description What keeps persons from being recognised, and what it cost */
            anonymity: {
                /** @description Pilots who share whatever combination of quasi-identifiers is shown */
                k: number;
                /** @description Share of what the classes tell that is kept over all runs, by column */
                kept?: {
                    [key: string]: number;
                };
                pilots: number;
                /** @description Runs that show a range of classes, by column */
                rangeRuns?: {
                    [key: string]: number;
                };
                runs: number;
                sessions: number;
                /** @description Runs in which a column was emptied, by column */
                suppressedRuns: {
                    [key: string]: number;
                };
            };
            /** @description Since the release before */
            changes: string[];
            citation: string;
            /** Format: date-time */
            createdAt: string;
            /** @description SHA-256 of its SHA256SUMS, which names every other file */
            digest: string;
            fits: {
                fitId: string;
                metric: string;
                runs: number;
            }[];
            /** @description Day of the release and its number within the day, such as 2026-11-24.1 */
            id: string;
            /** @description SPDX identifier */
            licence: string;
            methodVersion: string;
            modelVersion: string;
            setups: number;
            /**
             * Format: date-time
             * @description The moment whose evidence it holds
             */
            snapshotAt: string;
            /** @description The data package of the release */
            url: string;
            /** @description Counts the releases */
            version: number;
        };
        ReleasePage: {
            items: components["schemas"]["Release"][];
            nextCursor: string | null;
        };
        Report: {
            componentId: string | null;
            /** Format: date-time */
            createdAt: string;
            /** Format: uuid */
            id: string;
            /**
             * @description unsafe: somebody may get hurt; wrong: a record is not true
             * @enum {string}
             */
            kind: "unsafe" | "wrong";
            /**
             * @description What the report did to the set-up at once; moderators decide on more
             * @enum {string}
             */
            safety: "none" | "advisory";
            setupId: string | null;
            submissionId: string | null;
            text: string;
        };
        Review: {
            /**
             * Format: uuid
             * @description Who reported, or submitted the measurement
             */
            accountId: string;
            componentId: string | null;
            /** Format: date-time */
            createdAt: string;
            /** @description When it was last decided on; null while it waits */
            decidedAt: string | null;
            /** @description Oldest first */
            decisions: {
                accountId: string | null;
                /** Format: date-time */
                at: string;
                /**
                 * @description doNotFly, advisory: that state for the set-up, or for every set-up with the component; lift: what was in force no longer is; dismiss: there was nothing in it, and what it put in force is lifted. Of an outlier: setAside: that revision is no evidence from now on, and a correction of it is again; keep: it is evidence, also where it was set aside before
                 * @enum {string}
                 */
                decision: "doNotFly" | "advisory" | "lift" | "dismiss" | "keep" | "setAside";
                reason: string;
            }[];
            /** @description What came of it for the safety of set-ups, oldest first; in force until lifted */
            findings: {
                /** Format: date-time */
                createdAt: string;
                /** Format: uuid */
                id: string;
                liftedAt: string | null;
                liftedById: string | null;
                liftedReason: string | null;
                reason: string;
                /** Format: uuid */
                setupId: string;
                /** @enum {string} */
                state: "advisory" | "doNotFly";
            }[];
            /**
             * Format: uuid
             * @description Of the report
             */
            id: string;
            /**
             * @description unsafe: somebody may get hurt; wrong: a record is not true; outlier: a session does not fit the rest
             * @enum {string}
             */
            kind: "unsafe" | "wrong" | "outlier";
            /**
             * @description fit: the session stands out among all others
             * @enum {string}
             */
            origin: "person" | "measurement" | "fit";
            /** @description Of an outlier: the revision of the submission it is about */
            revision: number | null;
            /** @description That revision is no evidence now */
            setAside: boolean;
            setupId: string | null;
            submissionId: string | null;
            text: string;
        };
        ReviewPage: {
            items: components["schemas"]["Review"][];
            nextCursor: string | null;
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
        SessionInfluence: {
            /** @description Setups flown in it */
            cells: number;
            /** @description Distance of its setups’ means from what all others predict, squared and weighted */
            chiSquare: number;
            degreesOfFreedom: number;
            /** @description Stands out by more than chance, or holds a run that does: it is to be looked at */
            flagged: boolean;
            /** @description The part of it that moves all its setups alike, in standard deviations */
            levelShift: number;
            mostMoved: {
                /** Format: uuid */
                a: string;
                /** Format: uuid */
                b: string;
                /** @description Change of a against b if this session is left out */
                changePercent: number;
                inStandardErrors: number;
            } | null;
            /** @description Adjusted for the number of sessions (Holm) */
            pValue: number;
            /** @description The rest says nothing about one of its setups, so its influence has no number */
            soleEvidence: boolean;
            /**
             * Format: uuid
             * @description A session is one submission, and does not say whose; one of a mirrored release has none to read
             */
            submissionId: string;
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
                tune: ("asDelivered" | "modified") | null;
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
        TipClearance: {
            assumptions: string[];
            /** @description Of the lower tip towards the cage, turning included; negative: away from it [mm] */
            bottomMovementMm: {
                interval95: [
                    number,
                    number
                ];
                /** @description k = 1 */
                standardUncertainty: number;
                value: number;
            };
            /** @description Where the uncertainty of requiredClearanceMm comes from */
            budget: {
                /** @description Fraction of the variance; the shares sum to 1 */
                share: number;
                source: string;
                /** @description Its part [mm], k = 1 */
                standardUncertainty: number;
            }[];
            cautions: string[];
            /** @description Null where no measured clearance was given */
            comparison: {
                /** @description Measured less required clearance [mm] */
                marginMm: {
                    interval95: [
                        number,
                        number
                    ];
                    /** @description k = 1 */
                    standardUncertainty: number;
                    value: number;
                };
                sentence: string;
                staticClearanceMm: number;
                /**
                 * @description larger: the arithmetic finds nothing against it, and no more than that
                 * @enum {string}
                 */
                verdict: "tooSmall" | "notResolved" | "larger";
            } | null;
            /** @description The part of either that comes from turning [mm] */
            gyroscopicMovementMm: number;
            /** @description Pull at a blade tip that tilts the propeller as far as full thrust would [N] */
            handPullN: number;
            /** @description Clearance needed at rest: 1.5 times the larger movement, the bending of the blades and 10 mm [mm] */
            requiredClearanceMm: {
                interval95: [
                    number,
                    number
                ];
                /** @description k = 1 */
                standardUncertainty: number;
                value: number;
            };
            /** @description Tilt under thrust alone, the upper tip going forward [°] */
            tiltDeg: number;
            /** @description Of the upper tip towards the cage, turning included [mm] */
            topMovementMm: {
                interval95: [
                    number,
                    number
                ];
                /** @description k = 1 */
                standardUncertainty: number;
                value: number;
            };
        };
        TipClearanceQuestion: {
            /** @description How far the blades bend forward under thrust [mm]; absent: taken as nothing */
            bladeFlexMm?: number;
            /** @description Rubber mounts of the engine, each of them */
            mounts: {
                /** @description Height, counted from any level below [mm] */
                heightMm: number;
                /** @description Stiffness along the propeller's axis [N/mm] */
                stiffnessNPerMm: number;
            }[];
            /** @description Diameter of the propeller [cm] */
            propellerDiameterCm: number;
            /** @description Moment of inertia of the propeller about its axis [kg·m²] */
            propellerInertiaKgM2?: number;
            /** @description Propeller speed [1/min] */
            propellerRpm?: number;
            /** @description Smallest gap between blade tip and frame, measured at rest [mm] */
            staticClearanceMm?: number;
            /** @description Height of the propeller's axis, counted from the same level as the mounts' heights [mm] */
            thrustLineAboveMountsMm: number;
            /** @description Thrust at full throttle [N] */
            thrustN: number;
            /** @description Fastest turn to reckon with [°/s] */
            yawRateDegPerS?: number;
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
        TradeOff: {
            cautions: string[];
            /** @description Hash of the evidence and of the versions of method and model */
            climbFitId: string;
            conditions: components["schemas"]["Conditions"];
            /** @description Hash of the evidence and of the versions of method and model */
            fuelFitId: string;
            /** @description Not known well enough in both, or not linked with the others */
            leftOut: {
                name: string;
                refused: components["schemas"]["Refused"];
                /** Format: uuid */
                setupId: string;
            }[];
            otherFits: components["schemas"]["OtherFits"];
            /** @description Reported unsafe: not recommended whatever they measure */
            setAside: {
                name: string;
                /** Format: uuid */
                setupId: string;
            }[];
            /** @description Likeliest on the front first */
            setups: components["schemas"]["TradeOffSetup"][];
        };
        TradeOffSetup: {
            climbRateMps: {
                interval95: [
                    number,
                    number
                ];
                value: number;
            };
            fuelFlowLPerH: {
                interval95: [
                    number,
                    number
                ];
                value: number;
            };
            name: string;
            /** @description By the estimates: no other one climbs at least as well on no more fuel */
            onFront: boolean;
            /** @description Share of seeded draws from both fits in which that is so */
            probabilityOnFront: number;
            /** @description Where results that do not fit the rest count less; null while otherFits is pending, absent where there is no such fit */
            robust?: {
                agrees: boolean;
                probabilityOnFront: number | null;
                verdict: components["schemas"]["FrontVerdict"];
            } | null;
            sentence: string;
            /** Format: uuid */
            setupId: string;
            verdict: components["schemas"]["FrontVerdict"];
            /** @description Without submissions by people with an interest; null while otherFits is pending, absent where there is no such fit */
            withoutInterested?: {
                changes: boolean;
                probabilityOnFront: number | null;
                verdict: components["schemas"]["FrontVerdict"];
            } | null;
        };
        /** @enum {string} */
        Verdict: "aBetter" | "bBetter" | "practicallyEqual" | "notResolved" | "refused";
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
    attributeDifference: {
        parameters: {
            query: {
                /** @description All-up mass [kg]; default 120 */
                allUpMassKg?: number;
                /** @description Elevation above mean sea level [m]; the pressure is that of the standard atmosphere there */
                elevationM?: number;
                /** @description class: only runs flown in the mass class asked for; all: borrowed from every class */
                evidence?: "all" | "class";
                /** @description true: without submissions by people who sell, make or were given what they tested */
                excludeInterested?: "true" | "false";
                /** @description An earlier fit; default: the current one */
                fitId?: string;
                /** @description Setup to start from */
                from: string;
                massClass?: components["schemas"]["MassClassInput"];
                metric: components["schemas"]["MetricInput"];
                /** @description For soundLevel: at the ear of the pilot, or 20 m away */
                soundPosition?: "pilotEar" | "distance";
                /** @description Air temperature [°C]; default: the standard atmosphere at that elevation */
                temperatureC?: number;
                /** @description Setup to go to */
                to: string;
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
                    "application/json": components["schemas"]["Attribution"];
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
    listAuditEvents: {
        parameters: {
            query?: {
                /** @description nextCursor of the page before */
                cursor?: string;
                /** @description Items per page */
                limit?: number;
                /** @description Only what was done to this report, set-up, submission or account */
                subjectId?: string;
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
                    "application/json": components["schemas"]["AuditPage"];
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
            429: components["responses"]["TooManyRequests"];
        };
    };
    compareSetups: {
        parameters: {
            query: {
                /** @description All-up mass [kg]; default 120 */
                allUpMassKg?: number;
                /** @description ISO 4217, of fuelPricePerL */
                currency?: string;
                /** @description Elevation above mean sea level [m]; the pressure is that of the standard atmosphere there */
                elevationM?: number;
                /** @description class: only runs flown in the mass class asked for; all: borrowed from every class */
                evidence?: "all" | "class";
                /** @description true: without submissions by people who sell, make or were given what they tested */
                excludeInterested?: "true" | "false";
                /** @description An earlier fit, to see an answer again as it was; default: the current one */
                fitId?: string;
                /** @description Price of a litre of fuel, for fuelFlow: hours until fuel has paid; needs currency */
                fuelPricePerL?: number;
                massClass?: components["schemas"]["MassClassInput"];
                metric: components["schemas"]["MetricInput"];
                /** @description Ids of 2 to 50 setups, separated by commas */
                setups: string;
                /** @description For soundLevel: at the ear of the pilot, or 20 m away; never converted into one another */
                soundPosition?: "pilotEar" | "distance";
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
    drawComparison: {
        parameters: {
            query: {
                /** @description All-up mass [kg]; default 120 */
                allUpMassKg?: number;
                /** @description What is drawn; differences are against the setup named first */
                chart?: "values" | "differences" | "ranks";
                /** @description ISO 4217, of fuelPricePerL */
                currency?: string;
                /** @description Elevation above mean sea level [m]; the pressure is that of the standard atmosphere there */
                elevationM?: number;
                /** @description class: only runs flown in the mass class asked for; all: borrowed from every class */
                evidence?: "all" | "class";
                /** @description true: without submissions by people who sell, make or were given what they tested */
                excludeInterested?: "true" | "false";
                /** @description An earlier fit, to see an answer again as it was; default: the current one */
                fitId?: string;
                /** @description Price of a litre of fuel, for fuelFlow: hours until fuel has paid; needs currency */
                fuelPricePerL?: number;
                massClass?: components["schemas"]["MassClassInput"];
                metric: components["schemas"]["MetricInput"];
                /** @description Ids of 2 to 50 setups, separated by commas */
                setups: string;
                /** @description For soundLevel: at the ear of the pilot, or 20 m away; never converted into one another */
                soundPosition?: "pilotEar" | "distance";
                /** @description Air temperature [°C]; default: the standard atmosphere at that elevation */
                temperatureC?: number;
                /** @description Width [px] */
                widthPx?: number;
                /** @description A wing of the catalogue; default: the reference wing at its loading */
                wingId?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The picture */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "image/svg+xml": string;
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
    mergeComponent: {
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
                "application/json": components["schemas"]["NewMerge"];
            };
        };
        responses: {
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Merge"];
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
    readDatasetRequest: {
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
                    "application/json": components["schemas"]["DatasetRequest"];
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
    listDatasets: {
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
                    "application/json": components["schemas"]["ReleasePage"];
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
    createDataset: {
        parameters: {
            query?: never;
            header?: {
                /** @description The same key and body replays the first answer (IETF httpapi draft) */
                "idempotency-key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Accepted */
            202: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["DatasetRequest"];
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
    readDataset: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description Day of the release and its number within the day, such as 2026-11-24.1 */
                release: string;
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
                    "application/json": components["schemas"]["DataPackage"];
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
    readDatasetFile: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description Such as runs.csv; SHA256SUMS lists them all */
                file: string;
                /** @description Day of the release and its number within the day, such as 2026-11-24.1 */
                release: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The file */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": unknown;
                };
            };
            /** @description The part asked for */
            206: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": unknown;
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
            /** @description Range Not Satisfiable */
            416: {
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
    exportRuns: {
        parameters: {
            query?: {
                /** @description Only runs with that powerplant, propeller or frame */
                componentId?: string;
                format?: "csv" | "ndjson" | "parquet";
                /** @description Only runs that show months from this one on */
                from?: string;
                /** @description Only runs of that kind, such as climb */
                kind?: string;
                massClass?: components["schemas"]["MassClassInput"];
                /** @description Only runs of that setup */
                setupId?: string;
                /** @description Only runs that show months up to this one */
                to?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The runs */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": unknown;
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
    readImportRequest: {
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
                    "application/json": components["schemas"]["ImportRequest"];
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
            429: components["responses"]["TooManyRequests"];
        };
    };
    listImports: {
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
                    "application/json": components["schemas"]["ImportPage"];
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
    importData: {
        parameters: {
            query?: {
                /** @description The import of an earlier release of the same server: it no longer counts once this one does */
                replaces?: string;
            };
            header?: {
                /** @description The same key and body replays the first answer (IETF httpapi draft) */
                "idempotency-key"?: string;
                /** @description respond-async (RFC 7240): answer 202 with a place to follow it, for long files */
                prefer?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "multipart/form-data": {
                    /** @description components.csv of the same release, where its parts are not known here */
                    components?: string;
                    /** @description A notebook, alone */
                    notebook?: string;
                    /** @description runs.csv of a release */
                    runs?: string;
                    /** @description setups.csv of the same release, where its set-ups are not known here */
                    setups?: string;
                    /** @description systematic.csv of the same release; needed beside runs */
                    systematic?: string;
                };
                "text/csv": string;
            };
        };
        responses: {
            /** @description The same file came before: what it made then */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Import"];
                };
            };
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Import"];
                };
            };
            /** @description It is being taken in */
            202: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ImportRequest"];
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
    readImport: {
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
                    "application/json": components["schemas"]["Import"];
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
            429: components["responses"]["TooManyRequests"];
        };
    };
    withdrawImport: {
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
    listNotebookColumns: {
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
                    "application/json": components["schemas"]["NotebookColumns"];
                };
            };
            304: components["responses"]["NotModified"];
            429: components["responses"]["TooManyRequests"];
        };
    };
    readNotebookTemplate: {
        parameters: {
            query?: {
                /** @description semicolon for spreadsheets that write a decimal comma */
                delimiter?: "comma" | "semicolon";
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description CSV */
            200: {
                headers: {
                    ETag: components["headers"]["ETag"];
                    [name: string]: unknown;
                };
                content: {
                    "application/json": string;
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
    getNoiseExposure: {
        parameters: {
            query: {
                /** @description Time in a day at that level [min]: then the answer has its dose */
                durationMin?: number;
                /** @description A-weighted level where the ear is, without protection [dB(A)]; no time is permitted above 140 */
                levelDbA: number;
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
                    "application/json": components["schemas"]["NoiseExposure"];
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
    normalize: {
        parameters: {
            query?: {
                /** @description true: check the uncertainty of each run by Monte Carlo; at most 30 runs */
                crossCheck?: "true" | "false";
            };
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
                /** @description class: only runs flown in the mass class asked for; all: borrowed from every class */
                evidence?: "all" | "class";
                /** @description true: without submissions by people who sell, make or were given what they tested */
                excludeInterested?: "true" | "false";
                /** @description An earlier fit, to see an answer again as it was; default: the current one */
                fitId?: string;
                /** @description Ranked setups to list */
                limit?: number;
                massClass?: components["schemas"]["MassClassInput"];
                metric: components["schemas"]["MetricInput"];
                /** @description For soundLevel: at the ear of the pilot, or 20 m away; never converted into one another */
                soundPosition?: "pilotEar" | "distance";
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
    fileReport: {
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
                "application/json": components["schemas"]["NewReport"];
            };
        };
        responses: {
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Report"];
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
    listReviews: {
        parameters: {
            query?: {
                /** @description nextCursor of the page before */
                cursor?: string;
                /** @description Items per page */
                limit?: number;
                /** @description Only what is about this set-up */
                setupId?: string;
                /** @description waiting: no decision yet; inForce: something of it holds for a set-up, or a session is set aside; closed: decided, and nothing holds */
                state?: "waiting" | "inForce" | "closed";
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
                    "application/json": components["schemas"]["ReviewPage"];
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
            429: components["responses"]["TooManyRequests"];
        };
    };
    getReview: {
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
                    "application/json": components["schemas"]["Review"];
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
    decideReview: {
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
                "application/json": components["schemas"]["NewDecision"];
            };
        };
        responses: {
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Review"];
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
    computeTipClearance: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["TipClearanceQuestion"];
            };
        };
        responses: {
            /** @description OK */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TipClearance"];
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
    mergeSetup: {
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
                "application/json": components["schemas"]["NewMerge"];
            };
        };
        responses: {
            /** @description Created */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Merge"];
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
    predictSetup: {
        parameters: {
            query?: {
                /** @description All-up mass at the start, with all fuel [kg]; default 120 */
                allUpMassKg?: number;
                /** @description Standard uncertainty (k = 1) of the mass [kg]; default: 2, or that of the class for a massClass */
                allUpMassUncertaintyKg?: number;
                /** @description Elevation above mean sea level [m] */
                elevationM?: number;
                /** @description class: only runs flown in the mass class asked for; all: borrowed from every class */
                evidence?: "all" | "class";
                /** @description true: without submissions by people who sell, make or were given what they tested */
                excludeInterested?: "true" | "false";
                /** @description Earlier fits, one at most for each of climb, fuel, electric power and static thrust, separated by commas */
                fitId?: string;
                /** @description Flat area of your own wing [m²] */
                flatAreaM2?: number;
                /** @description Glide ratio of the system: wing, pilot and running frame */
                glideRatio?: number;
                /** @description Where glideRatio comes from; default: estimated. Of a catalogue’s, 85 % are taken */
                glideSource?: "measured" | "catalogue" | "estimated";
                /** @description Standard uncertainty (k = 1) of the glide ratio of the system; default: 7 % measured, 12 % catalogue, 15 % estimated, 20 % where there is none */
                glideUncertainty?: number;
                massClass?: components["schemas"]["MassClassInput"];
                /** @description Altimeter setting QNH [hPa]; default: the standard atmosphere, ±10 hPa */
                qnhHPa?: number;
                /** @description Standard uncertainty (k = 1) of QNH [hPa]; default: 2, or 10 without a QNH */
                qnhUncertaintyHPa?: number;
                /** @description Relative humidity [%]; default: 50, anything from 0 to 100 being possible */
                relativeHumidityPct?: number;
                /** @description Standard uncertainty (k = 1) of the humidity [%]; default: 15, or 29 without a humidity */
                relativeHumidityUncertaintyPct?: number;
                /** @description Fuel not to be flown on [L] */
                reserveL?: number;
                /** @description Flying time to be left over, in place of reserveL [min] */
                reserveMin?: number;
                /** @description Fuel on board at the start, part of the all-up mass [L] */
                tankL?: number;
                /** @description Standard uncertainty (k = 1) of the fuel on board [L]; default: 2 % */
                tankUncertaintyL?: number;
                /** @description Air temperature [°C]; default: the standard atmosphere at that elevation */
                temperatureC?: number;
                /** @description Standard uncertainty (k = 1) of the air temperature [K]; default: 1.5 */
                temperatureUncertaintyK?: number;
                /** @description All-up mass that trimSpeedMps belongs to [kg]; default: the mass of the question */
                trimAtAllUpMassKg?: number;
                /** @description Level airspeed at trim in standard air at sea level [m/s], at trimAtAllUpMassKg */
                trimSpeedMps?: number;
                /** @description Standard uncertainty (k = 1) of the trim speed [m/s]; default: 4 %, 10 % where there is none */
                trimSpeedUncertaintyMps?: number;
                /** @description A wing of the catalogue; its glide ratio less 15 % for cage and pilot */
                wingId?: string;
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
                    "application/json": components["schemas"]["Prediction"];
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
    weighTradeOff: {
        parameters: {
            query?: {
                /** @description All-up mass [kg]; default 120 */
                allUpMassKg?: number;
                /** @description An earlier fit of climbs; default: the current one */
                climbFitId?: string;
                /** @description Elevation above mean sea level [m]; the pressure is that of the standard atmosphere there */
                elevationM?: number;
                /** @description class: only runs flown in the mass class asked for; all: borrowed from every class */
                evidence?: "all" | "class";
                /** @description true: without submissions by people who sell, make or were given what they tested */
                excludeInterested?: "true" | "false";
                /** @description An earlier fit of burns; default: the current one */
                fuelFitId?: string;
                massClass?: components["schemas"]["MassClassInput"];
                /** @description Ids of 2 to 200 setups, separated by commas; default: all with evidence */
                setups?: string;
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
                    "application/json": components["schemas"]["TradeOff"];
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
}
